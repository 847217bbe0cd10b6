//! Words from outside, made harmless.

use crate::units::is_plain;

/// Words from outside as HTML text or attribute value. Characters that HTML does not allow become
/// the replacement character.
pub(in crate::export) fn escape(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' | '\t' => out.push(c),
            c if !is_plain(c) || is_noncharacter(c) => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

/// Code points that are never characters (HTML, parse error "noncharacter").
fn is_noncharacter(c: char) -> bool {
    let code = u32::from(c);
    (0xfdd0..=0xfdef).contains(&code) || code & 0xfffe == 0xfffe
}

#[cfg(test)]
mod tests {
    use super::escape;

    #[test]
    fn words_cannot_become_markup() {
        assert_eq!(escape("<b a='1'>&\"</b>"), "&lt;b a=&#39;1&#39;&gt;&amp;&quot;&lt;/b&gt;");
        assert_eq!(escape("a\u{0}b\u{7f}c\u{ffff}"), "a\u{fffd}b\u{fffd}c\u{fffd}");
        assert_eq!(escape("Öl → −6"), "Öl → −6");
    }
}
