"use strict";
(() => {
	const at = id => document.getElementById(id);
	const list = at("clips");
	if (!list) return;
	const clips = [...list.children];
	const number = (clip, name) => Number(clip.dataset[name]);
	const orders = {
		first: (a, b) => number(a, "first") - number(b, "first"),
		name: (a, b) => a.dataset.name.localeCompare(b.dataset.name, undefined, { numeric: true }),
		long: (a, b) => number(b, "long") - number(a, "long"),
		slides: (a, b) => number(b, "slides") - number(a, "slides"),
		notes: (a, b) => number(b, "notes") - number(a, "notes"),
	};
	const weights = {
		"": () => true,
		fix: clip => number(clip, "fix") > 0,
		note: clip => number(clip, "notes") > 0,
		none: clip => number(clip, "notes") === 0,
	};
	const value = id => at(id) ? at(id).value : "";
	const show = () => {
		const words = value("find").toLowerCase().split(/\s+/).filter(Boolean);
		const kind = value("kind");
		const newest = at("newest") && at("newest").checked;
		let shown = 0;
		for (const clip of clips) {
			const text = clip.dataset.text.toLowerCase();
			const wanted = words.every(word => text.includes(word)) && weights[value("weight")](clip) &&
				(!kind || clip.dataset.kinds.split(", ").includes(kind)) && !(newest && "older" in clip.dataset);
			clip.hidden = !wanted;
			shown += wanted;
		}
		at("shown").textContent = `${shown} of ${clips.length}`;
	};
	const order = () => {
		const by = orders[value("order")];
		list.append(...clips.sort((a, b) => by(a, b) || orders.first(a, b)));
	};
	for (const id of ["find", "weight", "kind", "newest"]) at(id)?.addEventListener("input", show);
	at("order").addEventListener("input", order);
	show();
})();
