package highlight

import (
	"sync"

	"github.com/alecthomas/chroma/v2"
)

// lexers returns the lexers by language, made on first use.
var lexers = sync.OnceValue(func() map[string]chroma.Lexer {
	lesson := newLexer("lesson", lessonRules)
	settings := newLexer("settings", settingsRules)
	console := newLexer("console", consoleRules)
	return map[string]chroma.Lexer{
		"lesson": lesson, "markdown": lesson, "md": lesson,
		"formula": settings, "question": settings, "practical": settings, "care": settings, "course": settings, "range": settings,
		"paper": settings, "sheet": settings, "words": settings, "yaml": settings, "yml": settings,
		"console": console, "shell": console, "sh": console,
	}
})

func lexerOf(language string) chroma.Lexer { return lexers()[language] }

func newLexer(name string, rules func() chroma.Rules) chroma.Lexer {
	return chroma.MustNewLexer(&chroma.Config{Name: name}, rules)
}

// Token types, by what they are in our notations.
const (
	plain  = chroma.Text
	note   = chroma.Comment
	key    = chroma.NameTag
	text   = chroma.LiteralString
	number = chroma.LiteralNumber
	mark   = chroma.Keyword // signs with a meaning, and values that plait fills in
	head   = chroma.GenericHeading
	strong = chroma.GenericStrong
)

// settingsValues colours the values of a mapping: what is quoted, what is counted
// (with its unit), shade codes, and the signs of lists and claims.
func settingsValues() []chroma.Rule {
	return []chroma.Rule{
		{Pattern: `#[^\n]*`, Type: note},
		{Pattern: `"(?:[^"\\\n]|\\.)*"`, Type: text},
		{Pattern: `'[^'\n]*'`, Type: text},
		{Pattern: `\d{1,2}[A-Z]{1,3}\b`, Type: text},
		{Pattern: `\d+(?:[.:-]\d+)*(?: (?:g|kg|%|vol|min|h|parts?)(?!\w))?`, Type: number},
		{Pattern: `[\[\]{}(),+|>?]`, Type: mark},
		{Pattern: `[^\W\d]\w*`, Type: plain},
		{Pattern: `[^\n]`, Type: plain},
		{Pattern: `\n`, Type: plain},
	}
}

// settingsLine colours the beginnings of lines: keys, and the dashes of lists.
func settingsLine() []chroma.Rule {
	return []chroma.Rule{
		{Pattern: `^([ \t]*)(- )?([\w][\w -]*)(:)(?=\s|$)`, Type: chroma.ByGroups(plain, mark, key, plain)},
		{Pattern: `^([ \t]*)(-)(?= )`, Type: chroma.ByGroups(plain, mark)},
		{Pattern: `([{,] ?)([\w][\w -]*)(:)(?= )`, Type: chroma.ByGroups(mark, key, plain)},
	}
}

func settings() []chroma.Rule { return append(settingsLine(), settingsValues()...) }

func settingsRules() chroma.Rules {
	return chroma.Rules{"root": settings()}
}

// lessonRules colour a lesson: its header and blocks as settings, and of the text
// steps with their times, inline values, emphasis, links and pictures.
func lessonRules() chroma.Rules {
	closing := func(pattern string) []chroma.Rule {
		return append([]chroma.Rule{{Pattern: pattern, Type: mark, Mutator: chroma.Pop(1)}}, settings()...)
	}
	return chroma.Rules{
		"root": {
			{Pattern: `\A---$`, Type: mark, Mutator: chroma.Push("header")},
			{Pattern: "^( *)(`{3,})(\\w+)([^\\n`]*)$", Type: chroma.ByGroups(plain, mark, key, plain), Mutator: chroma.Push("block")},
			{Pattern: `^(#{1,6} )(\d+:\d\d(?::\d\d)?(?:-\d+:\d\d(?::\d\d)?)?)?([^\n]*)$`, Type: chroma.ByGroups(mark, number, head)},
			{Pattern: "`\\{[^}`\\n]*\\}`", Type: mark},
			{Pattern: "`[^`\\n]+`", Type: text},
			{Pattern: `\*\*[^*\n]+\*\*`, Type: strong},
			{Pattern: `(!?\[)([^\]\n]{0,400})(\]\()([^)\n]{0,400})(\))`, Type: chroma.ByGroups(mark, plain, mark, text, mark)},
			{Pattern: `^( *)([-*>|:]|\d+\.)(?= )`, Type: chroma.ByGroups(plain, mark)},
			{Pattern: `[^\W]+`, Type: plain},
			{Pattern: `[^\n]`, Type: plain},
			{Pattern: `\n`, Type: plain},
		},
		"header": closing(`^---$`),
		"block":  closing("^ *`{3,} *$"),
	}
}

// consoleRules colour a terminal: what is typed after a prompt, its options, and
// remarks.
func consoleRules() chroma.Rules {
	return chroma.Rules{
		"root": {
			{Pattern: `^(\$ )([^\s#]+)`, Type: chroma.ByGroups(mark, key)},
			{Pattern: `(?<=^|\s)#[^\n]*`, Type: note},
			{Pattern: `"[^"\n]*"`, Type: text},
			{Pattern: `'[^'\n]*'`, Type: text},
			{Pattern: `(?<=\s)--?[\w-]+`, Type: mark},
			{Pattern: `\w+`, Type: plain},
			{Pattern: `[^\n]`, Type: plain},
			{Pattern: `\n`, Type: plain},
		},
	}
}
