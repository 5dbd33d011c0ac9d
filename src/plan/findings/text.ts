/** Mistakes in the YAML itself in words for people who do not think in YAML. They stop the reading. */
import { mistake } from "./mistake.ts";

const plain =
  "A plan is plain YAML: `key: value` lines, indented with spaces. Until the text can be read, nothing is computed.";

export const yamlColonInText = mistake<{ key: string; value: string; braces: boolean }>({
  code: "yaml-colon-in-text",
  title: "text that holds `: ` is not in quotes",
  why: "In YAML a colon followed by a space ends a key, so the rest of the text would become another entry.",
  cure: "Put the whole text in quotes, or keys and their values in braces.",
  example: "title: ore freighter: day 2",
  sentence: () => "a second `: ` on one line",
  label: ({ braces }) => (braces ? "keys inside an entry need braces" : "text with a colon and a space needs quotes"),
  hint: ({ key, value, braces }) => (braces ? `${key}: { ${value} }` : `${key}: "${value}"`),
});

export const commaInValue = mistake<{ text: string; fix: string }>({
  code: "comma-in-value",
  title: "a comma inside a value between braces",
  why: "Between braces a comma ends the value, so the text after it would become a key of its own.",
  cure: "Write numbers without a thousands separator, put several values in brackets, and put text with a comma in quotes.",
  example: `
    vehicles:
      wagon: { gross: 9,800 lb }
  `,
  sentence: ({ text }) => `a comma splits \`${text}\``,
  hint: ({ fix }) => `\`${fix}\``,
});

export const yamlNoSpaceAfterColon = mistake<{ key: string; rest: string }>({
  code: "yaml-no-space-after-colon",
  title: "no space between a key's colon and its value",
  why: "In YAML `at:7:00` is one word, not a key with a value.",
  cure: "Put a space after the colon.",
  example: `
    hits:
      dawn:
        at:7:00
        for: 3 min
        place: pier
  `,
  sentence: ({ key }) => `no space after \`${key}:\``,
  hint: ({ key, rest }) => `${key}: ${rest}`,
});

export const yamlConflict = mistake<{ mark: string }>({
  code: "yaml-conflict",
  title: "a merge conflict that was not resolved",
  why: "Git writes both versions into the file, between lines of `<<<<<<<`, `=======` and `>>>>>>>`.",
  cure: "Keep one of the versions, and delete the lines with the marks.",
  example: `
    hits:
    <<<<<<< HEAD
      dawn: { at: "07:00", for: 3 min, place: pier }
    =======
      dawn: { at: "07:30", for: 3 min, place: pier }
    >>>>>>> desk
  `,
  sentence: ({ mark }) => `\`${mark}\` is a conflict mark of Git: two versions of these lines are in the file`,
  hint: () => "keep one of the versions and delete the lines with the marks",
});

export const yamlNoSpaceAfterDash = mistake<{ rest: string }>({
  code: "yaml-no-space-after-dash",
  title: "no space between the dash of a list and its item",
  why: "In YAML `-lodge` is a word that begins with a dash, not an item of a list.",
  cure: "Put a space after the dash.",
  example: `
    runs:
      wagon:
        - lodge
        -pier
  `,
  sentence: () => "no space after the dash of a list",
  hint: ({ rest }) => `- ${rest}`,
});

export const yamlNoColon = mistake<{ key: string; rest: string }>({
  code: "yaml-no-colon",
  title: "a key without a colon",
  why: "A plan is made of `key: value` lines; without its colon a line is only text.",
  cure: "Put a colon and a space behind the key.",
  example: `
    runs:
      truck:
        driver tomas
        stops: [lodge, pier]
  `,
  sentence: ({ key }) => `no colon after \`${key}\``,
  hint: ({ key, rest }) => (rest === "" ? `${key}:` : `${key}: ${rest}`),
});

export const yamlCommaMissing = mistake<{ value: string; key: string }>({
  code: "yaml-comma-missing",
  title: "no comma between two keys in braces",
  why: "Between braces a comma ends each value; without it the next key belongs to the text before.",
  cure: "Put a comma between the value and the next key.",
  example: `
    hits:
      dawn: { at: 07:00, place: pier for: 3 min }
  `,
  sentence: ({ key }) => `no comma before \`${key}:\``,
  hint: ({ value, key }) => `${value}, ${key}:`,
});

export const yamlCommaAlone = mistake<Record<string, never>>({
  code: "yaml-comma-alone",
  title: "a comma that separates nothing",
  why: "A comma stands between two items in brackets or braces, and nowhere else.",
  cure: "Remove the comma.",
  example: `
    runs:
      wagon: [lodge, pier,, lodge]
  `,
  sentence: () => "this comma separates nothing",
  hint: () => "remove it",
});

export const yamlOddSign = mistake<{ name: string; plain: string }>({
  code: "yaml-odd-sign",
  title: "a sign that only looks like one of YAML's",
  why: "Mail, phones and word processors put curly quotes, long dashes and no-break spaces in place of the plain ones, and YAML does not know them.",
  cure: "Type the sign again on the keyboard, in an editor for plain text.",
  example: `
    hits:
      dawn: { at: “07:00”, for: 3 min, place: pier }
  `,
  sentence: ({ name, plain }) => `${name} in place of ${plain}`,
  hint: ({ plain }) => `type ${plain}`,
});

export const yamlBadStart = mistake<{ sign: string; value: string }>({
  code: "yaml-bad-start",
  title: "text begins with a sign that YAML reserves",
  why: "Plain text in YAML cannot begin with `@`, a back-tick, `%`, `,` and some other signs.",
  cure: "Put the text in quotes.",
  example: "title: @dawn",
  sentence: ({ sign }) => `text cannot begin with ${sign === "`" ? "a back-tick" : `\`${sign}\``}`,
  hint: ({ value }) =>
    value.startsWith("```")
      ? "remove this line, which is no part of the plan"
      : value.includes('"')
        ? `'${value}'`
        : `"${value}"`,
});

export const yamlBadEscape = mistake<{ spelled: string }>({
  code: "yaml-bad-escape",
  title: "a backslash in double quotes that means nothing",
  why: "Between double quotes a backslash begins a code such as `\\n`; an unknown one has no meaning.",
  cure: "Use single quotes, which take a backslash as it is.",
  example: 'title: "C:\\plans"',
  sentence: ({ spelled }) => `\`${spelled}\` means nothing between double quotes`,
  hint: () => "use single quotes, which keep a backslash as it is",
});

export const yamlTab = mistake<Record<string, never>>({
  code: "yaml-tab",
  title: "a line is indented with a tab",
  why: "YAML counts columns, and a tab has no fixed width; only spaces may indent.",
  cure: "Indent with spaces, and set the editor to do so.",
  example: "crew:\n\twren: { role: camera }",
  sentence: () => "a tab at the beginning of a line",
  hint: () => "indent with spaces",
});

export const yamlUnclosed = mistake<{ what: string; close: string; comment: boolean }>({
  code: "yaml-unclosed",
  title: "a quote or bracket is never closed",
  why: "Everything after an open quote or bracket belongs to it, so the rest of the plan cannot be read.",
  cure: "Close it at the end of its line.",
  example: `
    places:
      lodge: { at: [46.60, -90.88 }
  `,
  sentence: ({ what, comment }) =>
    comment ? `this \`#\` begins a comment, and the ${what} before it is never closed` : `this ${what} is never closed`,
  hint: ({ close, comment }) =>
    comment ? "put quotes around the text that holds the `#`" : `add \`${close}\` where it ends`,
});

const SAME_COLUMN = "begin it in the same column as its neighbours";

/** How a line stands out, in words. */
const OUT_OF_PLACE = {
  deep: { sentence: "this line lines up with none of the lines above it", hint: SAME_COLUMN },
  left: { sentence: "this line begins too far left: the plan has no such section", hint: SAME_COLUMN },
  dash: { sentence: "this entry begins with a dash, those around it do not", hint: "take out the dash" },
  dashLeft: { sentence: "this entry begins further left than those above it", hint: SAME_COLUMN },
  noDash: { sentence: "this entry has no dash, those around it do", hint: "begin it with `- `" },
} as const;

export const yamlIndent = mistake<{ how: keyof typeof OUT_OF_PLACE }>({
  code: "yaml-indent",
  title: "a line with the wrong indentation",
  why: "Entries that belong together begin in the same column; the indentation says which entry a line belongs to.",
  cure: "Line the entry up with the others of its map or list.",
  example: `
    hits:
      dawn:
        for: 3 min
       place: pier
  `,
  sentence: ({ how }) => OUT_OF_PLACE[how].sentence,
  hint: ({ how }) => OUT_OF_PLACE[how].hint,
});

export const yamlSyntax = mistake<Record<string, never>>({
  code: "yaml-syntax",
  title: "the text is not YAML",
  why: plain,
  cure: "Look at the marked spot and the line above it: a missing quote, bracket, comma or colon.",
  example: "crew: { wren: } }",
  sentence: () => "this cannot be read as YAML",
  hint: () => "look for a missing quote, bracket, comma or colon here or on the line above",
});

export const yamlReference = mistake<{ sign: string }>({
  code: "yaml-reference",
  title: "an anchor, alias or merge key",
  why: "`&name`, `*name` and `<<` make one line take another's value. A plan states every value where it is used.",
  cure: "Write the value out; what several days share belongs in a file named by `uses`. Text that begins so needs quotes.",
  example: "title: &t Ice",
  sentence: ({ sign }) => `\`${sign}\` is not allowed in a plan`,
  hint: () => "write the value out, or put quotes around text that begins so",
});

export const yamlTag = mistake<{ tag: string }>({
  code: "yaml-tag",
  title: "a YAML tag",
  why: "`!name` changes how a value is read. Plans do not need it.",
  cure: "Remove the tag, or put quotes around text that begins with an exclamation mark.",
  example: "title: !ice Ice",
  sentence: ({ tag }) => `the tag \`${tag}\` is not allowed in a plan`,
  hint: () => "remove it, or put quotes around text that begins so",
});

export const yamlDirective = mistake<{ line: string }>({
  code: "yaml-directive",
  title: "a YAML directive",
  why: "A line that begins with `%` can switch to older YAML, where `12:30` is the number 750.",
  cure: "Remove the line, and the `---` below it.",
  example: `
    %YAML 1.1
    ---
    daywright: 1
  `,
  sentence: () => "a line that begins with `%` is not allowed in a plan",
  hint: () => "remove the line",
});

export const yamlSecondDocument = mistake<Record<string, never>>({
  code: "yaml-second-document",
  title: "more than one document in a file",
  why: "A plan is one day in one file. A second document after `---` would be lost.",
  cure: "Put the second day in a file of its own and name it with `follows`.",
  example: `
    daywright: 1
    ---
    daywright: 1
  `,
  sentence: () => "a second document begins here",
  hint: () => "put it in a file of its own",
});

export const keyNotText = mistake<Record<string, never>>({
  code: "key-not-text",
  title: "a key that is not a word",
  why: "Keys are words; a list, a map or an empty key is none.",
  cure: "Write the key as a word before a colon.",
  example: `
    ? [wren, ilse]
    : 1
  `,
  sentence: () => "a key must be a word",
  hint: () => "write the key as one word before the colon",
});

export const keyTwice = mistake<{ key: string }>({
  code: "key-twice",
  title: "a key stands twice in one map",
  why: "The second would silently replace the first.",
  cure: "Remove one of them.",
  example: `
    crew:
      wren: { role: camera }
      wren: { role: reporter }
  `,
  sentence: ({ key }) => `\`${key}\` stands here a second time`,
  hint: ({ key }) => `remove one \`${key}\`, or give it another name`,
});

const LONE_RETURN = "U+000D";

export const controlCharacter = mistake<{ mark: string }>({
  code: "control-character",
  title: "an invisible control character",
  why: "Control characters can change how a terminal behaves. They come in with pasted text and are never intended. A carriage return alone ends no line here: a file whose lines end so would be read as one line.",
  cure: "Delete the character and type the text again; save a file with the line ends of Unix or Windows.",
  example: 'title: "\\e[2J"',
  sentence: ({ mark }) =>
    mark === LONE_RETURN
      ? `this line ends in ${mark} alone, as lines of old Macs did`
      : `the invisible character ${mark} is not allowed in a plan`,
  hint: ({ mark }) =>
    mark === LONE_RETURN ? "save the file with the line ends of Unix or Windows" : "type the text again",
});

export const planEmpty = mistake<Record<string, never>>({
  code: "plan-empty",
  title: "the plan has no entries",
  why: "A plan is a list of `key: value` lines and begins with `daywright: 1`.",
  cure: "Begin with `daywright: 1`; `daywright new` writes a first plan.",
  example: "# nothing yet",
  sentence: () => "the plan has no entries",
  hint: () => "begin with `daywright: 1`, or let `daywright new` write a first plan",
});

export const planNotMap = mistake<{ found: string }>({
  code: "plan-not-map",
  title: "the plan is not made of `key: value` lines",
  why: plain,
  cure: "Begin with `daywright: 1`.",
  example: "- daywright",
  sentence: ({ found }) => `a plan is made of \`key: value\` lines, and this is ${found}`,
  hint: () => "begin with `daywright: 1`",
});

export const planTooLarge = mistake<{ found: string }>({
  code: "plan-too-large",
  title: "the plan is too large",
  why: "A plan has at most 256 KiB, 5,000 values and 32 levels; a larger file is a mistake or an attack.",
  cure: "Split the plan into days.",
  example: "title: a whole book, pasted     # more than 256 KiB of it",
  sentence: ({ found }) => `the plan has ${found}`,
  hint: ({ found }) =>
    found.endsWith("levels") ? "close brackets where they end, and keep entries flat" : "split it into one file a day",
});

export const mistakesMore = mistake<{ more: number }>({
  code: "mistakes-more",
  level: "note",
  title: "more errors than shown",
  why: "Beyond twenty, most mistakes follow from a few.",
  cure: "Fix these, then run check again.",
  example: `
    runs:     # 22 places that the plan does not have
      wagon: [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v]
  `,
  sentence: ({ more }) => `and ${more} more`,
  hint: () => "fix these first",
});
