package batch

import (
	"bufio"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
)

// A Clip is one clip of a batch.
type Clip struct {
	Path string `json:"path"` // as it was named, or below the folder that was
	Name string `json:"name"` // of its folder of results
	// Same is the name of the clip before it that has the same content; this one is
	// not measured then.
	Same string `json:"same_as,omitempty"`
}

// films are the suffixes by which clips are known in a folder; one that is named
// itself may have any.
var films = []string{
	".mp4", ".mov", ".m4v", ".mkv", ".webm", ".avi", ".gif", ".mpg", ".mpeg", ".mxf", ".ogv", ".ts", ".mts", ".m2ts", ".wmv", ".flv", ".3gp",
}

// stills are those of pictures, which make a clip where they are numbered.
var stills = []string{".png", ".jpg", ".jpeg", ".webp", ".bmp", ".tga"}

// Find returns the clips that paths name, in the order of their paths, each path
// once. A path is a clip, an image sequence, a folder, which stands for all clips
// below it, or a pattern of the shell that no shell has replaced. What is not
// there is returned too, for it to be told like any clip that cannot be read.
// Folders that cannot be read are an error.
func Find(ctx context.Context, paths []string) ([]Clip, error) {
	var found []string
	for _, path := range paths {
		more, err := expand(ctx, path)
		if err != nil {
			return nil, err
		}
		found = append(found, more...)
	}
	slices.Sort(found)
	found = slices.Compact(found)
	clips := make([]Clip, len(found))
	for i, path := range found {
		clips[i].Path = path
	}
	name(clips)
	return clips, once(ctx, clips)
}

// expand returns the clips that one path names.
func expand(ctx context.Context, path string) ([]string, error) {
	path = filepath.Clean(path)
	info, err := os.Stat(path)
	switch {
	case err == nil && info.IsDir():
		return below(ctx, path)
	case err != nil && strings.ContainsAny(path, "*?[") && !sequence.MatchString(path):
		matches, err := filepath.Glob(path)
		if err != nil || len(matches) == 0 {
			return []string{path}, nil // told as a clip that is not there
		}
		var all []string
		for _, match := range matches {
			if strings.HasPrefix(filepath.Base(match), ".") && !strings.HasPrefix(filepath.Base(path), ".") {
				continue // as shells do
			}
			more, err := expand(ctx, match)
			if err != nil {
				return nil, err
			}
			all = append(all, more...)
		}
		return all, nil
	}
	return []string{path}, nil
}

// sequence is how the numbers of an image sequence are written in its name.
var sequence = regexp.MustCompile(`%(0\d{1,2})?d|\[\d+-\d+\]`)

// below returns the clips in a folder and in those inside it. Hidden ones are left
// out, and so are the folders of batches and of other results.
func below(ctx context.Context, folder string) (clips []string, err error) {
	numbered := map[numbers][]string{} // the digits, by what stands around them
	err = filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case ctx.Err() != nil:
			return context.Cause(ctx)
		case path != folder && strings.HasPrefix(d.Name(), "."), path != folder && d.IsDir() && isResult(path):
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case d.IsDir() || !d.Type().IsRegular() && d.Type() != fs.ModeSymlink:
			return nil
		}
		suffix := strings.ToLower(filepath.Ext(path))
		if slices.Contains(films, suffix) {
			clips = append(clips, path)
		} else if m := number.FindStringSubmatch(d.Name()); m != nil && slices.Contains(stills, suffix) {
			key := numbers{filepath.Dir(path), m[1], m[3]}
			numbered[key] = append(numbered[key], m[2])
		}
		return nil
	})
	for n, digits := range numbered {
		if len(digits) > 1 {
			clips = append(clips, n.sequence(digits))
		}
	}
	return clips, err
}

// number splits the name of a numbered picture.
var number = regexp.MustCompile(`^(.*?)(\d{1,18})(\.[^.]+)$`)

type numbers struct{ folder, before, after string }

// sequence names the pictures from the lowest to the highest number. Where one is
// missing between them, the clip's own line says which.
func (n numbers) sequence(digits []string) string {
	slices.SortFunc(digits, func(a, b string) int {
		a, b = strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
		if len(a) != len(b) {
			return len(a) - len(b)
		}
		return strings.Compare(a, b)
	})
	return filepath.Join(n.folder, fmt.Sprintf("%s[%s-%s]%s", n.before, digits[0], digits[len(digits)-1], n.after))
}

// isResult reports whether a folder holds what this program wrote.
func isResult(folder string) bool {
	for _, name := range []string{planFile, filepath.Base(folder) + RecordSuffix} {
		if info, err := os.Lstat(filepath.Join(folder, name)); err == nil && info.Mode().IsRegular() {
			return true
		}
	}
	return false
}

// ReadList returns the paths in a list, one a line; empty lines and those that
// begin with # say nothing. They go from the folder of the list.
func ReadList(file string) (paths []string, err error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		line := strings.TrimSpace(strings.TrimPrefix(lines.Text(), "\ufeff"))
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if !filepath.IsAbs(line) {
			line = filepath.Join(filepath.Dir(file), line)
		}
		paths = append(paths, line)
	}
	return paths, lines.Err()
}

// name gives each clip a name that no other has, whatever the case, and that is
// the same wherever the batch is cut.
func name(clips []Clip) {
	like := map[string]int{}
	stems := make([]string, len(clips))
	for i, c := range clips {
		stems[i] = whole.Stem(filepath.Base(c.Path))
		like[strings.ToLower(stems[i])]++
	}
	for _, own := range []string{failureFolder, shareFolder, planFile, OverviewPage, OverviewTable} {
		like[own] = 2
	}
	for i, c := range clips {
		if clips[i].Name = stems[i]; like[strings.ToLower(stems[i])] > 1 {
			clips[i].Name = stems[i] + "-" + short(c.Path)
		}
	}
}

// once marks the clips whose content is that of a clip before them. Only files of
// one size can have one content, so few are read.
func once(ctx context.Context, clips []Clip) error {
	sized := map[int64][]int{}
	for i, c := range clips {
		if info, err := os.Stat(c.Path); err == nil && info.Mode().IsRegular() {
			sized[info.Size()] = append(sized[info.Size()], i)
		}
	}
	for _, like := range sized {
		if len(like) < 2 {
			continue
		}
		first := map[string]string{}
		for _, i := range like {
			sum, err := extract.SHA256(ctx, clips[i].Path)
			switch {
			case ctx.Err() != nil:
				return context.Cause(ctx)
			case err != nil:
				continue // it is told when it is measured
			case first[sum] == "":
				first[sum] = clips[i].Name
			default:
				clips[i].Same = first[sum]
			}
		}
	}
	return nil
}

// Only returns the clips whose paths are wanted, with the names they have among
// all. One that is the same as another that is not wanted stands for itself.
func Only(clips []Clip, wanted func(path string) bool) (list []Clip) {
	named := map[string]bool{}
	for _, c := range clips {
		if !wanted(c.Path) {
			continue
		}
		if !named[c.Same] {
			c.Same = ""
		}
		named[c.Name] = true
		list = append(list, c)
	}
	return list
}
