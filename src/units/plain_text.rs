//! Text that shows as what it is: no character in it moves a cursor, ends a line, or turns the words
//! beside it round.

use std::borrow::Cow;
use std::path::Path;

/// As much of a text from outside as a message quotes, characters.
const MOST_QUOTED: usize = 80;

/// The words with their first letter a capital.
pub fn first_upper(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The words with their first letter small.
pub fn first_lower(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// Whether a character shows as itself in one line. Not so: the controls C0, DEL and C1 of ISO/IEC
/// 6429, the line and paragraph separators, and what sets the direction of text (the Unicode
/// bidirectional algorithm, UAX #9).
pub fn is_plain(c: char) -> bool {
    !c.is_control()
        && !matches!(
            c,
            '\u{61c}'
                | '\u{200e}'
                | '\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2066}'..='\u{2069}'
        )
}

/// The same in text of several lines: line ends and tabs besides.
pub fn is_plain_in_lines(c: char) -> bool {
    is_plain(c) || matches!(c, '\n' | '\r' | '\t')
}

/// The text in one line, what is not plain as `\u{…}`.
pub fn escaped(text: &str) -> Cow<'_, str> {
    escaped_unless(text, is_plain)
}

/// The same of text whose line ends are meant.
pub fn escaped_lines(text: &str) -> Cow<'_, str> {
    escaped_unless(text, |c| is_plain(c) || c == '\n')
}

fn escaped_unless(text: &str, is_fine: impl Fn(char) -> bool) -> Cow<'_, str> {
    if text.chars().all(&is_fine) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        if is_fine(c) { out.push(c) } else { out.extend(c.escape_unicode()) }
    }
    Cow::Owned(out)
}

/// The first `MOST_QUOTED` characters of a text, escaped; `…` says that there is more.
pub fn quotable(text: &str) -> String {
    quotable_within(text, MOST_QUOTED)
}

/// The same with another limit.
pub fn quotable_within(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((end, _)) => format!("{}\u{2026}", escaped(text.get(..end).unwrap_or_default())),
        None => escaped(text).into_owned(),
    }
}

/// A path for people.
pub fn shown_path(path: &Path) -> String {
    escaped(&path.to_string_lossy()).into_owned()
}

/// The last part of a path for people.
pub fn shown_name(path: &Path) -> String {
    escaped(&path.file_name().unwrap_or_default().to_string_lossy()).into_owned()
}

/// What a character is that must not stand in a name.
pub fn named(c: char) -> String {
    let what = match c {
        '\n' | '\r' | '\u{2028}' | '\u{2029}' => "a line end",
        '\t' => "a tab",
        c if c.is_control() => "a control character",
        _ => "a text-direction mark",
    };
    format!("{what}, U+{:04X}", u32::from(c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_escaped() {
        assert_eq!(escaped("a\u{0}b\u{1b}[31m\u{9b}c\n"), "a\\u{0}b\\u{1b}[31m\\u{9b}c\\u{a}");
        assert_eq!(escaped_lines("a\nb\tc"), "a\nb\\u{9}c");
        for mark in ['\u{200e}', '\u{200f}', '\u{202a}', '\u{202e}', '\u{2066}', '\u{2069}'] {
            assert!(!is_plain(mark), "{mark:?}");
            assert!(named(mark).starts_with("a text-direction mark, U+20"));
        }
        for fine in ["Öl → −6", "\u{2033}", "ホース", "e\u{301}", "שמן"] {
            assert_eq!(escaped(fine), fine);
        }
    }

    #[test]
    fn quotes_end() {
        assert_eq!(quotable(&"x".repeat(80)), "x".repeat(80));
        assert_eq!(quotable(&"é".repeat(81)), format!("{}…", "é".repeat(80)));
    }
}
