//! Fractions of an inch: to show, and the single characters that stand for one.

use super::MINUS;

/// The finest step shown, and the step of the bench rule.
pub(super) const STEPS_PER_INCH: f64 = 16.0;

/// Sixteenths as "12 3/8", "3/8", "12", "0", "−1 1/2": reduced, whole inches carried.
pub(super) fn sixteenths_text(sixteenths: i64) -> String {
    steps_text(sixteenths, 16)
}

/// The same of steps of which `per_inch` (a power of two) make an inch.
pub(super) fn steps_text(steps: i64, per_inch: u64) -> String {
    let count = steps.unsigned_abs();
    let (whole, rest) = (count / per_inch, count % per_inch);
    let sign = if steps < 0 { MINUS.to_string() } else { String::new() };
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let shared = 1 << rest.trailing_zeros();
    let (top, bottom) = (rest / shared, per_inch / shared);
    if whole == 0 {
        format!("{sign}{top}/{bottom}")
    } else {
        format!("{sign}{whole} {top}/{bottom}")
    }
}

const NON_BREAKING: char = '\u{a0}';

/// Whether the gap at this byte is inside a mixed number, "1 3/4": broken there, its fraction reads as a figure
/// of its own.
fn is_in_number(text: &str, gap: usize) -> bool {
    let (before, after) = (&text[..gap], &text[gap..]);
    let Some(after) = after.strip_prefix(' ') else { return false };
    let rest = after.trim_start_matches(|c: char| c.is_ascii_digit());
    let is_fraction = rest.len() < after.len()
        && rest
            .strip_prefix('/')
            .is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
    is_fraction && before.ends_with(|c: char| c.is_ascii_digit())
}

/// The text with gaps in mixed numbers at which no line may end.
pub fn unbroken(text: &str) -> String {
    let kept = |(at, c): (usize, char)| if is_in_number(text, at) { NON_BREAKING } else { c };
    text.char_indices().map(kept).collect()
}

/// The words of a text, between which a line may end: a mixed number is one word.
pub fn line_words(text: &str) -> impl Iterator<Item = &str> {
    let is_gap = |(at, c): &(usize, char)| {
        c.is_whitespace() && *c != NON_BREAKING && !is_in_number(text, *at)
    };
    let ends = text.char_indices().filter(is_gap).map(|(at, c)| (at, at + c.len_utf8()));
    let mut from = 0;
    ends.chain(std::iter::once((text.len(), text.len())))
        .map(move |(at, next)| &text[std::mem::replace(&mut from, next)..at])
        .filter(|word| !word.is_empty())
}

/// The value of a character such as `⅜` (Unicode's vulgar fractions that name a number).
pub(super) fn vulgar(c: char) -> Option<f64> {
    let (top, bottom) = match c {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅐' => (1.0, 7.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅑' => (1.0, 9.0),
        '⅒' => (1.0, 10.0),
        _ => return None,
    };
    Some(top / bottom)
}

#[cfg(test)]
mod tests {
    use super::sixteenths_text;
    use super::{line_words, unbroken};

    #[test]
    fn sixteenths_are_reduced_and_carried() {
        for (count, text) in [
            (0, "0"),
            (1, "1/16"),
            (2, "1/8"),
            (4, "1/4"),
            (8, "1/2"),
            (15, "15/16"),
            (16, "1"),
            (198, "12 3/8"),
            (-24, "\u{2212}1 1/2"),
            (-1, "\u{2212}1/16"),
        ] {
            assert_eq!(sixteenths_text(count), text);
        }
    }

    #[test]
    fn a_mixed_number_is_one_word() {
        let text = "radius 1 3/4 in,  minimum 12 13/16 in; 2 of 3\n5 / 8";
        let words: Vec<&str> = line_words(text).collect();
        let wanted =
            ["radius", "1 3/4", "in,", "minimum", "12 13/16", "in;", "2", "of", "3", "5", "/", "8"];
        assert_eq!(words, wanted);
        assert_eq!(unbroken("cut 1 3/4 in, 2 of 3"), "cut 1\u{a0}3/4 in, 2 of 3");
        assert_eq!(line_words(" ").count(), 0);
    }
}
