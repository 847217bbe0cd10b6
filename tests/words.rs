//! One thing, one name: no string that a person may read has a word that was given up for a better one.
//! Every literal in `src` counts, outside comments and test modules.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Words and phrases given up, whole words in any case; `*` stands for any ending. Beside each the
/// better one.
const WORDS: &[(&str, &str)] = &[
    // Severities.
    ("mend*", "fix"),
    ("to look at", "warning"),
    // The bay.
    ("solid", "obstacle"),
    ("solids", "obstacles"),
    ("keep off", "stay clear of"),
    ("keeps off", "stays clear of"),
    ("keep-off", "keep-out zone"),
    ("to keep", "minimum clearance"),
    ("option", "routing"),
    ("options", "routings"),
    ("body", "moving group"),
    ("bodies", "moving groups"),
    ("rock*", "pivot"),
    ("shifts", "slides"),
    ("shifted", "slid"),
    ("shifting", "sliding"),
    ("pose", "position"),
    ("poses", "positions"),
    ("neutral", "as drawn"),
    ("underlay*", "background"),
    ("fade*", "opacity"),
    // The hose.
    ("held against", "checked against"),
    ("} into it", "fouls by"),
    ("lies into", "fouls by"),
    ("presses into", "fouls by"),
    ("cuts into", "fouls by"),
    ("cuts in", "fouls by"),
    ("true lie", "installed shape"),
    ("will lie", "installed shape"),
    ("really lie*", "installed shape"),
    ("how it lies", "installed shape"),
    ("how hoses lie", "installed shape"),
    ("wish*", "drawn route"),
    ("lead", "straight (noun), route (verb)"),
    ("free span", "free length"),
    ("half width", "grip"),
    ("at the axis", "centre line"),
    ("at its axis", "centre line"),
    ("bends to", "bend radius"),
    ("tighter than the hose stands", "below minimum bend radius"),
    ("lengths that will do", "acceptable cut lengths"),
    ("seat to seat", "overall length"),
    ("between the elbows", "clock angle, B from A"),
    ("hose exit", "cut end"),
    ("hose comes out", "cut end"),
    // What it carries.
    ("duty", "service conditions"),
    ("medium", "fluid"),
    ("warmth", "temperature"),
    ("above that of the air", "gauge"),
    // The bench.
    ("leak test*", "proof test (liquid), leak check (air under water)"),
    ("leak-test*", "proof test (liquid), leak check (air under water)"),
    ("maker*", "manufacturer"),
    ("licensed practice", "licensed technician"),
    // What every program calls it.
    ("chosen", "selected"),
    ("let go", "cancel, clear"),
    ("leave off", "stop"),
    ("forget*", "clear"),
    ("lately", "recent"),
    ("tape", "Measure"),
    ("nought", "zero"),
    ("reckon*", "calculate"),
    ("worked out", "calculated"),
    ("anew", "again"),
    ("as it was", "out of date"),
    ("not told", "unknown"),
    ("to be had", "available"),
    ("label a hose", "label for each hose"),
    ("a metre", "per metre"),
    ("a piece,", "per piece"),
];

/// Words that are given up as the whole of a label only.
const LABELS: &[(&str, &str)] = &[
    ("Choose", "Select"),
    ("Choose all", "Select all"),
    ("Raise", "Bring forward"),
    ("Lower", "Send back"),
    ("Make", "Add"),
    ("Above", "Plan"),
    ("Ahead", "Front"),
    ("Outside", "OD"),
    ("Carries", "Fluid"),
    ("Keep off", "Minimum clearance"),
];

/// Keys and words of the bay file and the report, fixed by their contract: a literal that is one of them.
const KEYS: &[&str] =
    &["maker", "outside", "leak_tests", "flexing", "maker-mix", "leak-test", "positions-chosen"];

/// A path of code, named to the library that writes JSON.
const CODE: &str = "Option::is_none";

/// Where a word is right: file, part of the string, why.
const EXCEPTIONS: &[(&str, &str, &str)] = &[
    ("app/files/template.rs", "tape and scissors", "sticky tape, for paper"),
    ("document/file/mesh.rs", "solid", "a word of the STL format"),
    ("export/html/mod.rs", "<body>", "a word of HTML"),
    ("report/captions.rs", "tape them", "sticky tape, for paper"),
    ("report/sheet/steps/mod.rs", "Tape the hose", "masking tape"),
    ("report/sheet/steps/mod.rs", "tape off", "masking tape"),
    ("report/sheet/steps/screwed.rs", "medium pressure", "a term of the manual that is cited"),
];

#[test]
fn no_word_that_was_given_up() {
    let mut found = Vec::new();
    let mut used = BTreeSet::new();
    for (file, text) in sources() {
        for Literal { line, text } in literals(&text) {
            if KEYS.contains(&text.as_str()) || text == CODE {
                continue;
            }
            for (word, better) in given_up(&text) {
                let excepted = EXCEPTIONS.iter().position(|(of, part, _)| {
                    *of == file && text.contains(part) && !given_up(part).is_empty()
                });
                match excepted {
                    Some(place) => {
                        used.insert(place);
                    }
                    None => {
                        found.push(format!("src/{file}:{line}: {text:?}\n    {word}: {better}"));
                    }
                }
            }
        }
    }
    assert!(found.is_empty(), "{} strings:\n{}", found.len(), found.join("\n"));
    let idle: Vec<_> = (0..EXCEPTIONS.len()).filter(|place| !used.contains(place)).collect();
    assert!(idle.is_empty(), "exceptions that nothing needs: {idle:?}");
}

/// The words of a string that were given up, with the better ones.
fn given_up(text: &str) -> Vec<(&'static str, &'static str)> {
    let lower = text.to_lowercase();
    let labels = LABELS.iter().filter(|(label, _)| *label == text);
    let words = WORDS.iter().filter(|(word, _)| has(&lower, word));
    // It says what an overall length is, where that is named.
    let words = words.filter(|(word, _)| *word != "seat to seat" || !lower.contains("overall"));
    labels.chain(words).copied().collect()
}

fn has(text: &str, word: &str) -> bool {
    let (stem, any_ending) = match word.strip_suffix('*') {
        Some(stem) => (stem, true),
        None => (word, false),
    };
    let part_of_word = |c: char| c.is_alphanumeric() || c == '_' || c == '/';
    text.match_indices(stem).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + stem.len()..].chars().next();
        !before.is_some_and(part_of_word) && (any_ending || !after.is_some_and(part_of_word))
    })
}

#[test]
fn words_are_found_whole_and_in_any_case() {
    let words = |text| given_up(text).into_iter().map(|(word, _)| word).collect::<Vec<_>>();
    assert_eq!(words("Reckoned for the Medium"), ["medium", "reckon*"]);
    assert!(words("recommended, rubber, lowered, a title").is_empty());
    assert_eq!(words("2 in to keep"), ["to keep"]);
    assert_eq!(words("Raise"), ["Raise"]);
    assert!(words("does not raise the rating").is_empty());
}

/// All files below `src` but those of tests, by their path from there.
fn sources() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut paths = Vec::new();
    collect(&root, &mut paths);
    let mut for_tests = BTreeSet::new();
    let mut all = Vec::new();
    for path in paths {
        let text = fs::read_to_string(&path).unwrap();
        let folder = match path.file_stem().and_then(|stem| stem.to_str()) {
            Some("mod" | "lib" | "main") => path.parent().unwrap().to_owned(),
            _ => path.with_extension(""),
        };
        for module in test_modules(&text) {
            for_tests.insert(folder.join(format!("{module}.rs")));
            for_tests.insert(folder.join(module).join("mod.rs"));
        }
        all.push((path, text));
    }
    let name = |path: &Path| path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
    let kept = all.into_iter().filter(|(path, _)| !for_tests.contains(path));
    kept.map(|(path, text)| (name(&path), text)).collect()
}

fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut entries: Vec<PathBuf> = entries.collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            collect(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

/// Modules in files of their own that are there for tests only.
fn test_modules(source: &str) -> Vec<String> {
    let marked = source.split(TEST_ONLY).skip(1);
    let declared = marked.filter_map(|rest| {
        let line = rest.trim_start().lines().next()?;
        let module = line.split("mod ").nth(1)?.strip_suffix(';')?;
        Some(module.to_owned())
    });
    declared.collect()
}

const TEST_ONLY: &str = "#[cfg(test)]";

/// A string of the source, its escapes resolved.
#[derive(Debug, PartialEq)]
struct Literal {
    line: usize,
    text: String,
}

/// The string literals of a source file, without those of items that are there for tests only.
fn literals(source: &str) -> Vec<Literal> {
    let mut lexer = Lexer { rest: source, line: 1, in_word: false };
    let mut found = Vec::new();
    while let Some(token) = lexer.next() {
        match token {
            Token::Text(literal) => found.push(literal),
            Token::TestOnly => lexer.skip_item(),
            Token::Other(_) => {}
        }
    }
    found
}

enum Token {
    Text(Literal),
    /// `#[cfg(test)]`
    TestOnly,
    Other(char),
}

struct Lexer<'a> {
    rest: &'a str,
    line: usize,
    /// Whether the character before is part of a name: then `r"` begins no raw string.
    in_word: bool,
}

impl Lexer<'_> {
    fn next(&mut self) -> Option<Token> {
        loop {
            let first = self.rest.chars().next()?;
            if self.rest.starts_with("//") {
                let end = self.rest.find('\n').unwrap_or(self.rest.len());
                self.take(end);
            } else if self.rest.starts_with("/*") {
                self.block_comment();
            } else if self.rest.starts_with(TEST_ONLY) {
                self.take(TEST_ONLY.len());
                return Some(Token::TestOnly);
            } else if let Some(literal) = self.string() {
                return Some(Token::Text(literal));
            } else if first == '\'' {
                self.take(char_or_lifetime(self.rest));
            } else {
                self.take(first.len_utf8());
                self.in_word = first.is_alphanumeric() || first == '_';
                return Some(Token::Other(first));
            }
        }
    }

    fn take(&mut self, bytes: usize) {
        let (taken, rest) = self.rest.split_at(bytes);
        self.line += taken.matches('\n').count();
        self.rest = rest;
        self.in_word = false;
    }

    /// Comments nest.
    fn block_comment(&mut self) {
        let mut depth = 0;
        loop {
            if self.rest.starts_with("/*") {
                depth += 1;
                self.take(2);
            } else if self.rest.starts_with("*/") {
                depth -= 1;
                self.take(2);
            } else {
                let Some(next) = self.rest.chars().next() else { return };
                self.take(next.len_utf8());
            }
            if depth == 0 {
                return;
            }
        }
    }

    fn string(&mut self) -> Option<Literal> {
        let line = self.line;
        let prefix = if self.in_word { "" } else { self.rest };
        let after_b = prefix.strip_prefix(['b', 'c']).unwrap_or(prefix);
        if let Some(raw) = after_b.strip_prefix('r') {
            let hashes = raw.len() - raw.trim_start_matches('#').len();
            if let Some(body) = raw[hashes..].strip_prefix('"') {
                let end = format!("\"{}", "#".repeat(hashes));
                let length = body.find(&end).expect("a raw string ends");
                let text = body[..length].to_owned();
                let begun = self.rest.len() - body.len();
                self.take(begun + length + end.len());
                return Some(Literal { line, text });
            }
        }
        let body = after_b.strip_prefix('"').or_else(|| self.rest.strip_prefix('"'))?;
        let (text, length) = unescaped(body);
        self.take(self.rest.len() - body.len() + length);
        Some(Literal { line, text })
    }

    /// Goes over the item that follows: to its semicolon, or to the end of its braces.
    fn skip_item(&mut self) {
        let mut depth = 0_usize;
        while let Some(token) = self.next() {
            match token {
                Token::Other('{') => depth += 1,
                Token::Other('}') if depth <= 1 => return,
                Token::Other('}') => depth -= 1,
                Token::Other(';') if depth == 0 => return,
                _ => {}
            }
        }
    }
}

/// How many bytes `'x'`, `'\n'` or `'a` takes.
fn char_or_lifetime(text: &str) -> usize {
    let mut rest = text.char_indices().skip(1);
    match rest.next() {
        Some((_, '\\')) => {
            // The escaped character may be the quote itself.
            let after = rest.nth(1).map_or(text.len(), |(at, _)| at);
            text[after..].find('\'').map_or(text.len(), |end| after + end + 1)
        }
        Some((_, _)) => match rest.next() {
            Some((at, '\'')) => at + 1,
            _ => 1,
        },
        None => text.len(),
    }
}

/// The string that begins behind a quote, and how many bytes it takes with the quote that ends it.
fn unescaped(body: &str) -> (String, usize) {
    let mut text = String::new();
    let mut chars = body.char_indices().peekable();
    while let Some((at, next)) = chars.next() {
        match next {
            '"' => return (text, at + 1),
            '\\' => match chars.next().map(|(_, escaped)| escaped) {
                Some('n') => text.push('\n'),
                Some('t') => text.push('\t'),
                Some('u') => {
                    let digits: String =
                        chars.by_ref().map(|(_, c)| c).skip(1).take_while(|c| *c != '}').collect();
                    let code = u32::from_str_radix(&digits.replace('_', ""), 16).unwrap();
                    text.extend(char::from_u32(code));
                }
                Some('\n') => while chars.next_if(|(_, c)| c.is_whitespace()).is_some() {},
                Some(other) => text.push(other),
                None => break,
            },
            other => text.push(other),
        }
    }
    panic!("a string without an end: {text:?}");
}

#[test]
#[allow(clippy::needless_raw_string_hashes, reason = "the text has raw strings of its own")]
fn strings_are_told_from_all_else() {
    let source = r##"
        // "a comment"
        /* "another /* nested */ one" */
        const A: &str = "one \
                         line";
        fn f<'a>(c: char) -> &'a str { if c == '"' || c == '\'' || c == '\u{41}' { "in" } else { r"raw \" } }
        let fur = r#"with "quotes""#; let b = b"bytes"; let e = "\"\u{2212}\n";
        #[cfg(test)]
        mod tests { const T: &str = "for tests } only"; fn g() { "too"; } }
        #[cfg(test)]
        use super::only("gone");
        const Z: &str = "last";
    "##;
    let found = literals(source);
    let texts: Vec<&str> = found.iter().map(|literal| literal.text.as_str()).collect();
    let expected = ["one line", "in", "raw \\", "with \"quotes\"", "bytes", "\"\u{2212}\n", "last"];
    assert_eq!(texts, expected);
    assert_eq!(found[0].line, 4);
    assert_eq!(found[1].line, 6, "lines are counted over the end of a line in a string");
    assert_eq!(test_modules("#[cfg(test)]\nmod fixture;\nmod other;"), ["fixture"]);
}
