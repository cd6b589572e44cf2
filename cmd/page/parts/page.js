"use strict";

const $ = (id) => document.getElementById(id);
const data = JSON.parse($("data").textContent);
const rate = data.num / data.den; // frames a second
const last = data.first + data.frames - 1;
const clip = $("clip");

/* The player. It stands in the middle of a frame's time, so that no rounding
   shows a neighbour of it. */

let frame = data.first; // that is shown, in the sheet's numbering
let wanted = null; // frame to go to once the player has got to the one before

const timeOf = (n) => (n - data.first + data.before + 0.5) / rate;
const frameAt = (time) => within(Math.floor(time * rate + 0.001) - data.before + data.first);
const within = (n) => Math.min(Math.max(n, data.first), last);

function go(n) {
	clip.pause();
	show(within(Math.round(n)));
	wanted = frame;
	if (!clip.seeking) seekWanted();
}

function seekWanted() {
	if (wanted === null) return;
	clip.currentTime = timeOf(wanted);
	wanted = null;
}

function show(n) {
	frame = n;
	if (document.activeElement !== $("frame")) $("frame").value = n;
	for (const then of onFrame) then(n);
}
const onFrame = [];

function follow() {
	const tell = (time) => {
		if (clip.paused || clip.seeking) return;
		const n = frameAt(time);
		if (n > stretch.end || time * rate >= data.before + data.frames) return ended();
		show(n);
	};
	if (clip.requestVideoFrameCallback) {
		const next = (_, of) => { tell(of.mediaTime); clip.requestVideoFrameCallback(next); };
		clip.requestVideoFrameCallback(next);
		return;
	}
	const next = () => { tell(clip.currentTime); requestAnimationFrame(next); };
	requestAnimationFrame(next);
}

/* What is played: the clip, or the beat that one is on. */
let stretch = { start: data.first, end: last };

function ended() {
	if ($("again").value === "") return go(stretch.end);
	show(stretch.start);
	clip.currentTime = timeOf(stretch.start);
	clip.play().catch(() => {}); // stopped before it began
}

function playOrStop() {
	if (!clip.src) return; // only its sheet is here
	if (!clip.paused) return go(frame);
	const beat = $("again").value === "beat" && beatAt(frame);
	stretch = beat ? { start: Number(beat.dataset.start), end: Number(beat.dataset.end) } : { start: data.first, end: last };
	if (frame === stretch.end) clip.currentTime = timeOf(stretch.start);
	clip.play().catch(() => {}); // stopped before it began
}

function loadVideos() {
	for (const text of document.querySelectorAll("script[data-for]")) loadVideo(text);
}

function loadVideo(text) {
	const raw = atob(text.textContent);
	const bytes = new Uint8Array(raw.length);
	for (let i = 0; i < raw.length; i++) bytes[i] = raw.charCodeAt(i);
	text.remove();
	$(text.dataset.for).src = URL.createObjectURL(new Blob([bytes], { type: "video/mp4" }));
}

clip.addEventListener("seeked", seekWanted);
clip.addEventListener("loadeddata", () => { go(frame); }, { once: true });
clip.addEventListener("ended", ended);
clip.addEventListener("error", () => {
	$("trouble").textContent = "This browser does not play the clip. All the rest of the page works without it.";
	$("trouble").hidden = false;
});
for (const event of ["play", "pause"]) {
	clip.addEventListener(event, () => {
		$("play").textContent = clip.paused ? "Play" : "Stop";
		$("play").setAttribute("aria-pressed", String(!clip.paused));
	});
}

/* The reference beside a pass goes along frame by frame, as the two are lined up. */

function goAlong(video, of) {
	let goal = null;
	const seek = () => {
		if (goal === null || video.seeking) return;
		video.currentTime = (goal + 0.5) * of.den / of.num;
		goal = null;
	};
	const along = (n) => {
		goal = of.frames[n - data.first];
		$("beside-frame").textContent = of.first + goal;
		seek();
	};
	video.addEventListener("seeked", seek);
	video.addEventListener("loadeddata", () => along(frame), { once: true });
	onFrame.push(along);
}
if (data.beside) goAlong($("beside"), data.beside);

/* Buttons and keys. */

const before = (list, n) => list.filter((s) => s < n).at(-1) ?? data.first;
const after = (list, n) => list.find((s) => s > n) ?? last;

const press = (id, act) => $(id).addEventListener("click", act);
press("play", playOrStop);
press("back", () => go(frame - 1));
press("on", () => go(frame + 1));
press("beat-back", () => go(before(data.stops, frame)));
press("beat-on", () => go(after(data.stops, frame)));
clip.addEventListener("click", playOrStop);
$("speed").addEventListener("change", () => { clip.playbackRate = Number($("speed").value); });
$("sound")?.addEventListener("change", () => { clip.muted = !$("sound").checked; });
$("again").addEventListener("change", () => { if (!clip.paused) go(frame); });
$("frame").addEventListener("change", () => { if ($("frame").value !== "") go($("frame").valueAsNumber); });

const keys = {
	" ": playOrStop,
	ArrowLeft: (e) => go(frame - (e.shiftKey ? 10 : 1)),
	ArrowRight: (e) => go(frame + (e.shiftKey ? 10 : 1)),
	PageUp: () => go(before(data.stops, frame)),
	PageDown: () => go(after(data.stops, frame)),
	Home: () => go(data.first),
	End: () => go(last),
	"+": () => setZoom(zoom * 1.6),
	"-": () => setZoom(zoom / 1.6),
};

document.addEventListener("keydown", (e) => {
	if (e.ctrlKey || e.altKey || e.metaKey || e.target.matches("input:not([type=checkbox]), select, textarea")) return;
	if (e.key === " " && e.target.matches("button, summary, input")) return;
	if (e.target.matches("g[data-go]") && keyOnRow(e)) { e.preventDefault(); return; }
	const act = keys[e.key];
	if (!act) return;
	e.preventDefault();
	act(e);
});

/* Whatever has a frame can be clicked. */

document.addEventListener("click", (e) => {
	const thing = e.target.closest("[data-go]");
	if (thing) go(Number(thing.dataset.go));
});

function keyOnRow(e) {
	if (e.key === "Enter" || e.key === " ") { go(Number(e.target.dataset.go)); return true; }
	const step = { ArrowLeft: -1, ArrowRight: 1 }[e.key];
	if (!step || e.shiftKey) return false;
	const things = [...e.target.closest("svg.row").querySelectorAll("g[data-go]:not([hidden])")];
	const next = things[things.indexOf(e.target) + step];
	if (!next) return true;
	e.target.setAttribute("tabindex", -1);
	next.setAttribute("tabindex", 0);
	next.focus();
	next.scrollIntoView({ block: "nearest", inline: "nearest" });
	go(Number(next.dataset.go));
	return true;
}

/* The axis. */

const scroll = $("scroll"), inner = $("inner");
let zoom = 1;
const share = (n) => (n - data.first) / data.frames;

function setZoom(z) {
	const most = Math.max(1, data.frames * 24 / scroll.clientWidth);
	zoom = Math.min(Math.max(z, 1), most);
	inner.style.width = `${100 * zoom}%`;
	layOut();
	reveal(true);
}

function layOut() {
	drawRuler();
	thinLabels();
	thinPictures();
	thinPeaks();
	thinJoins();
	moveNow();
}

/* Where shots are short on the axis, the lines between them stay behind what is said. */
function thinJoins() {
	const joins = $("joins");
	joins?.classList.toggle("dense", inner.clientWidth < 24 * joins.childElementCount);
}

function drawRuler() {
	const room = 64 / inner.clientWidth * data.frames; // frames that a number takes
	const steps = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000];
	const step = steps.find((s) => s >= room) ?? 100000;
	const marks = [];
	for (let n = Math.ceil(data.first / step) * step; n <= last; n += step) marks.push(n);
	$("ruler").replaceChildren(...marks.flatMap((n) => {
		const x = `${100 * share(n)}%`;
		return [make("line", { x1: x, x2: x, y1: 14, y2: 22 }), make("text", { x, y: 13, dx: 2 }, n)];
	}));
}

function make(name, attributes, text) {
	const e = document.createElementNS("http://www.w3.org/2000/svg", name);
	for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
	if (text !== undefined) e.textContent = text;
	return e;
}

/* A label shows where all of it has room, or a good part of it. */
function thinLabels() {
	const frameWidth = inner.clientWidth / data.frames;
	for (const text of document.querySelectorAll(".item text")) {
		const { start, end } = text.closest(".item").dataset;
		text.toggleAttribute("hidden", (end - start + 1) * frameWidth < 7 * Math.min(text.textContent.length, 9) + 4);
	}
}

/* Pictures that would lie on another are left out until the axis is wider. */
function thinPictures() {
	let free = -Infinity;
	const pictures = document.querySelectorAll(".picture");
	for (const p of pictures) {
		const x = share(Number(p.dataset.start)) * inner.clientWidth;
		const fits = x >= free;
		p.toggleAttribute("hidden", !fits);
		if (fits) free = x + p.firstElementChild.width.baseVal.value + 3;
	}
	const stop = document.querySelector(".picture[tabindex='0']");
	if (stop?.hasAttribute("hidden")) { // tab would pass the row by
		stop.setAttribute("tabindex", -1);
		pictures[0].setAttribute("tabindex", 0);
	}
}

/* Marks of peaks that would run into one band are left out until the axis is wider. */
function thinPeaks() {
	for (const row of document.querySelectorAll("svg.row:has(.peak)")) {
		let free = -Infinity;
		for (const p of row.querySelectorAll(".peak")) {
			const x = share(Number(p.dataset.start)) * inner.clientWidth;
			p.toggleAttribute("hidden", x < free);
			if (x >= free) free = x + 11;
		}
	}
}

function moveNow() {
	$("now").style.transform = `translateX(${(share(frame) + 0.5 / data.frames) * inner.clientWidth}px)`;
}

function reveal(centre) {
	const x = share(frame) * inner.clientWidth, from = scroll.scrollLeft, width = scroll.clientWidth;
	if (centre || x < from || x > from + width - 30) scroll.scrollLeft = x - width * (centre ? 0.5 : 0.1);
}

press("wider", () => setZoom(zoom * 1.6));
press("narrower", () => setZoom(zoom / 1.6));
press("fit", () => setZoom(1));
new ResizeObserver(layOut).observe(inner);
window.addEventListener("beforeprint", () => setZoom(1));

const frameUnder = (e) => {
	const box = inner.getBoundingClientRect();
	return within(data.first + Math.floor((e.clientX - box.left) / box.width * data.frames));
};
inner.addEventListener("pointerdown", (e) => {
	if (e.button !== 0 || e.target.closest("[data-go]")) return;
	if (e.pointerType === "mouse") inner.setPointerCapture(e.pointerId);
	go(frameUnder(e));
});
inner.addEventListener("pointermove", (e) => { if (inner.hasPointerCapture(e.pointerId)) go(frameUnder(e)); });

onFrame.push(moveNow, () => reveal(false));

/* Over the picture. */

const over = data.over;
const layers = {
	thirds: () => [1, 2].flatMap((i) => {
		const x = over.width * i / 3, y = over.top + over.rows * i / 3;
		return [make("line", { x1: x, x2: x, y1: over.top, y2: over.top + over.rows }), make("line", { x1: 0, x2: over.width, y1: y, y2: y })];
	}),
	safe: () => over.safe.map((share, i) => make("rect", {
		x: over.width * (1 - share) / 2, y: over.top + over.rows * (1 - share) / 2,
		width: over.width * share, height: over.rows * share, class: i ? "small" : "",
	})),
	figures: (n) => over.figures.flatMap((f) => {
		const [x, y, width, height] = boxOf(f, n);
		return width ? [make("rect", { x, y, width, height })] : [];
	}),
	paths: (n) => over.figures.flatMap((f) => pathOf(f, n)),
	arc: (n) => arcOf(over.points[Number($("arc").value)], n),
	feet: (n) => over.contacts.filter((c) => c.start <= n && n <= c.end).flatMap((c) => footOf(c, n)),
};

const boxOf = (f, n) => {
	const i = 4 * (n - f.start);
	return n < f.start || i >= f.boxes.length ? [0, 0, 0, 0] : f.boxes.slice(i, i + 4);
};

/* The way of a spot of the still world through the picture: a step of the camera
   takes p to m + zoom * R(roll) * (p - m) - (dx, dy), m the middle. */
function carried([x, y], n, back) {
	const step = over.camera[n - data.first];
	if (!step) return [x, y];
	const [dx, dy, roll, zoom] = step, mx = over.width / 2, my = over.height / 2;
	const sin = Math.sin(roll * Math.PI / 180), cos = Math.cos(roll * Math.PI / 180);
	if (back) {
		const u = (x + dx - mx) / zoom, v = (y + dy - my) / zoom;
		return [mx + cos * u + sin * v, my - sin * u + cos * v];
	}
	const u = x - mx, v = y - my;
	return [mx + zoom * (cos * u - sin * v) - dx, my + zoom * (sin * u + cos * v) - dy];
}

/* Where a point was and will be on the frames from one to another, as seen from the
   frame n: what it does in the still world. */
function trail(at, from, to, n) {
	const points = [];
	for (let i = from; i <= to; i++) {
		let p = at(i);
		if (!p) continue;
		for (let k = i + 1; k <= n; k++) p = carried(p, k, false);
		for (let k = i; k > n; k--) p = carried(p, k, true);
		points.push([p, i]);
	}
	return points;
}

/* A line with a dot a frame: filled what is past, hollow what comes. */
function dotted(points, n, className) {
	const r = over.height / 180;
	return [
		make("polyline", { points: points.map(([p]) => p.map((v) => v.toFixed(1)).join()).join(" "), class: className }),
		...points.map(([[cx, cy], i]) => make("circle", { cx, cy, r: i === n ? 2 * r : r, class: i > n ? "dot later" : "dot" })),
	];
}

/* A second of a figure's path before the frame and one after it. */
function pathOf(f, n) {
	if (!boxOf(f, n)[2]) return [];
	const reach = Math.round(rate);
	const middle = (i) => {
		const [x, y, width, height] = boxOf(f, i);
		return width ? [x + width / 2, y + height / 2] : null;
	};
	return dotted(trail(middle, n - reach, n + reach, n), n, "");
}

/* The way of a point through the beat that one is on, from pose to pose, with the
   numbers of its first frame, its peak and its last; two seconds either way at most,
   for a dance without a hold would be one tangle. */
function arcOf(point, n) {
	const end = point.start + point.at.length / 2 - 1, beat = beatAt(n);
	if (n < point.start || n > end || !beat) return [];
	const at = (i) => {
		const x = point.at[2 * (i - point.start)];
		return x === null ? null : [x, point.at[2 * (i - point.start) + 1]];
	};
	const reach = Math.round(2 * rate);
	const from = Math.max(Number(beat.dataset.start) - 1, point.start, n - reach), to = Math.min(Number(beat.dataset.end) + 1, end, n + reach);
	const points = trail(at, from, to, n), size = over.height / 30;
	const named = new Set([from, to, Number(beat.dataset.go) > from + 1 ? Number(beat.dataset.go) : from]);
	return [
		...dotted(points, n, "arc"),
		...points.filter(([, i]) => named.has(i)).map(([[x, y], i]) => make("text", { x: x + size / 2, y: y - size / 3, "font-size": size }, i)),
	];
}

/* A bar under a foot that stands, a broken one with an arrow under one that slides. */
function footOf(c, n) {
	let p = [c.x, c.y];
	const from = c.slide_start ?? c.start, to = c.slide_end ?? c.end;
	for (let k = c.start + 1; k <= n; k++) {
		p = carried(p, k, false);
		if (k > from && k <= to) p[0] += c.slip_px / (to - from);
	}
	const half = over.height / 36, [x, y] = p;
	const bar = (of) => make("line", { x1: x - half, x2: x + half, y1: y, y2: y, class: of });
	if (c.state !== "slide" || n < from || n > to) return [bar("stands")];
	const way = Math.sign(c.slip_px) * half;
	return [bar("slides"), make("path", { class: "slides-to", d: `M${x + way} ${y - half / 2}l${way / 2} ${half / 2}l${-way / 2} ${half / 2}` })];
}

function drawOver(n) {
	const on = Object.keys(layers).filter((id) => id === "arc" ? $(id)?.value : $(id)?.checked);
	$("over").replaceChildren(...on.flatMap((id) => layers[id](n)));
}
for (const id of Object.keys(layers)) $(id)?.addEventListener("change", () => drawOver(frame));
onFrame.push(drawOver);

/* Where one is. */

const beats = [...document.querySelectorAll("[id^=row-beats-] g")];
const notes = [...document.querySelectorAll("#note-list button")];
const covers = (e, n) => Number(e.dataset.start) <= n && n <= Number(e.dataset.end);

const beatAt = (n) => beats.find((e) => covers(e, n));

onFrame.push((n) => {
	const beat = beatAt(n);
	$("beat").textContent = beat ? beat.getAttribute("aria-label") : "";
	for (const e of notes) e.classList.toggle("here", covers(e, n));
});

/* Which notes show. */

function filterNotes() {
	const weights = { fix: $("want-fix").checked, look: $("want-look").checked };
	const kind = $("want-kind").value, state = $("want-state")?.value ?? "";
	let shown = 0;
	for (const e of document.querySelectorAll("#note-list li")) {
		e.hidden = !(weights[e.dataset.weight] && (kind === "" || kind === e.dataset.kind) && (state === "" || state === e.dataset.state));
		if (!e.hidden) shown++;
	}
	$("count").textContent = shown === notes.length ? shown : `${shown} of ${notes.length}`;
}
if (notes.length > 0) for (const id of ["want-fix", "want-look", "want-kind", "want-state"]) $(id)?.addEventListener("change", filterNotes);

/* Remarks. The file they are saved as is the one that --remarks reads; until then
   the browser keeps them where it can. */

const drawer = `holdfast remarks ${data.key} ${data.first}`;
let remarks = data.remarks;

function recallRemarks() {
	try {
		const kept = JSON.parse(localStorage.getItem(drawer));
		if (!Array.isArray(kept?.remarks)) return;
		const sheets = JSON.stringify(data.remarks);
		const known = new Set(data.remarks.map((r) => JSON.stringify(r)));
		// A sheet made anew with the saved file has them all; else both are shown.
		remarks = kept.of === sheets ? kept.remarks : [...data.remarks, ...kept.remarks.filter((r) => !known.has(JSON.stringify(r)))];
	} catch { /* nothing is kept for pages from disk here */ }
}

let unsaved = false;
function keepRemarks() {
	try {
		localStorage.setItem(drawer, JSON.stringify({ of: JSON.stringify(data.remarks), remarks }));
	} catch {
		unsaved = true;
	}
}
window.addEventListener("beforeunload", (e) => { if (unsaved) e.preventDefault(); });

const element = (name, properties, ...children) => {
	const e = Object.assign(document.createElement(name), properties);
	e.append(...children);
	return e;
};
const framesOf = (r) => r.start === r.end ? `${r.start}` : `${r.start}–${r.end}`;

function showRemarks() {
	remarks.sort((a, b) => a.start - b.start || a.end - b.end);
	$("remark-list").replaceChildren(...remarks.map((r) => {
		const to = element("button", { type: "button" }, element("span", { className: "frames" }, framesOf(r)), element("span", { className: "text" }, r.text));
		Object.assign(to.dataset, { go: r.start, start: r.start, end: r.end });
		const away = element("button", { type: "button" }, "Remove");
		away.setAttribute("aria-label", `remove the remark on ${framesOf(r)}`);
		away.addEventListener("click", () => { remarks = remarks.filter((x) => x !== r); keepRemarks(); showRemarks(); $("remark-text").focus(); });
		return element("li", {}, to, away);
	}));
	$("save").disabled = remarks.length === 0;
	drawRemarks();
}

/* The remarks' row of the axis: what overlaps goes to lanes below. */
function drawRemarks() {
	const row = document.querySelector("#row-remarks svg.row"), ends = [], height = 26;
	row.replaceChildren(...remarks.map((r, i) => {
		let lane = ends.findIndex((end) => end < r.start);
		if (lane < 0) lane = ends.length;
		ends[lane] = r.end;
		const text = `${framesOf(r)}: ${r.text}`;
		const g = make("g", { class: "item remark", role: "button", tabindex: i ? -1 : 0, "data-go": r.start, "data-start": r.start, "data-end": r.end, "aria-label": text });
		const bar = make("svg", { x: `${100 * share(r.start)}%`, y: lane * height + 2, width: `${100 * (r.end - r.start + 1) / data.frames}%`, height: height - 4 });
		bar.append(make("rect", { class: "bar", width: "100%", height: "100%", rx: 2 }), make("text", { x: 5, y: 15 }, r.text));
		g.append(make("title", {}, text), bar);
		return g;
	}));
	row.setAttribute("height", ends.length * height);
	$("row-remarks").hidden = remarks.length === 0;
	thinLabels();
}

$("remark").addEventListener("submit", (e) => {
	e.preventDefault();
	const text = $("remark-text").value.replace(/\s+/g, " ").trim();
	if (text === "") return $("remark-text").focus();
	const frames = ["remark-from", "remark-to"].map((id) => $(id).value === "" ? frame : within(Math.round($(id).valueAsNumber)));
	remarks.push({ start: Math.min(...frames), end: Math.max(...frames), text });
	keepRemarks();
	showRemarks();
	$("remark").reset();
});
for (const id of ["remark-from", "remark-to"]) onFrame.push((n) => { $(id).placeholder = n; });

press("save", () => {
	const lines = remarks.map((r) => `${r.start === r.end ? r.start : `${r.start}-${r.end}`}: ${r.text}\n`);
	const url = URL.createObjectURL(new Blob([`# remarks on ${data.stem}\n`, ...lines], { type: "text/plain" }));
	const name = `${data.stem}.remarks.txt`;
	element("a", { href: url, download: name }).click();
	setTimeout(() => URL.revokeObjectURL(url), 60000);
	unsaved = false;
	$("saved").textContent = `Saved as ${name}; holdfast reads it with --remarks.`;
});

follow();
recallRemarks();
showRemarks();
show(frame);
layOut();
document.addEventListener("DOMContentLoaded", loadVideos);
