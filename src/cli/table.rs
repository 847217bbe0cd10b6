//! Plain text that lines up: a table and wrapped lines, by how wide letters come out on a terminal.

use crate::units::escaped;

/// How a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Align {
    Left,
    Right,
}

const BETWEEN: &str = "  ";

/// Rows under a heading, columns lined up; no spaces at the end of a line.
pub(super) fn table(heading: &[(&str, Align)], rows: &[Vec<String>]) -> String {
    let widths: Vec<usize> = heading
        .iter()
        .enumerate()
        .map(|(i, (title, _))| {
            let cells = rows.iter().filter_map(|row| row.get(i)).map(|cell| width(cell));
            cells.fold(width(title), usize::max)
        })
        .collect();
    let line = |cells: &mut dyn Iterator<Item = &str>| -> String {
        let padded: Vec<String> = cells
            .zip(heading.iter().zip(&widths))
            .map(|(cell, ((_, align), wide))| {
                let space = " ".repeat(wide.saturating_sub(width(cell)));
                match align {
                    Align::Left => format!("{cell}{space}"),
                    Align::Right => format!("{space}{cell}"),
                }
            })
            .collect();
        format!("{}\n", padded.join(BETWEEN).trim_end())
    };
    let mut out = line(&mut heading.iter().map(|(title, _)| *title));
    let whole = widths.iter().sum::<usize>() + BETWEEN.len() * widths.len().saturating_sub(1);
    out.push_str(&"─".repeat(whole));
    out.push('\n');
    for row in rows {
        out.push_str(&line(&mut row.iter().map(String::as_str)));
    }
    out
}

/// Words broken into lines of at most `columns`, each line after the first begun with `indent`
/// spaces. A word that is longer stands alone. Line ends in the words count as spaces.
pub(super) fn wrap(words: &str, columns: usize, indent: usize) -> String {
    let mut out = String::new();
    let mut used = 0;
    for word in words.split_whitespace() {
        let wide = width(word);
        if used > indent && used + 1 + wide > columns {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            used = indent;
        } else if !out.is_empty() {
            out.push(' ');
            used += 1;
        }
        out.push_str(word);
        used += wide;
    }
    out
}

/// At most `columns` wide, with `…` where something is cut off; one line.
pub(super) fn shortened(words: &str, columns: usize) -> String {
    let words = words.replace(['\n', '\r', '\t'], " ");
    let words = escaped(&words);
    if width(&words) <= columns {
        return words.into_owned();
    }
    let mut out = String::new();
    for c in words.chars() {
        if width(&out) + width_of(c) + 1 > columns {
            break;
        }
        out.push(c);
    }
    format!("{}…", out.trim_end())
}

/// Columns that words take on a terminal.
pub(super) fn width(words: &str) -> usize {
    words.chars().map(width_of).sum()
}

/// 0 for marks that stand over another letter and for what is not seen, 2 for East Asian wide
/// letters and emoji, else 1. The ranges are the main ones of Unicode's East Asian Width (UAX #11)
/// and of its combining marks: enough to line up a table.
fn width_of(c: char) -> usize {
    match u32::from(c) {
        0..=0x1f
        | 0x7f..=0x9f
        | 0x300..=0x36f
        | 0x483..=0x489
        | 0x591..=0x5bd
        | 0x610..=0x61a
        | 0x64b..=0x65f
        | 0x1ab0..=0x1aff
        | 0x1dc0..=0x1dff
        | 0x200b..=0x200f
        | 0x202a..=0x202e
        | 0x2060..=0x2064
        | 0x20d0..=0x20ff
        | 0xfe00..=0xfe0f
        | 0xfe20..=0xfe2f
        | 0xfeff => 0,
        0x1100..=0x115f
        | 0x2e80..=0x303e
        | 0x3041..=0x33ff
        | 0x3400..=0x4dbf
        | 0x4e00..=0x9fff
        | 0xa000..=0xa4cf
        | 0xac00..=0xd7a3
        | 0xf900..=0xfaff
        | 0xfe30..=0xfe6f
        | 0xff00..=0xff60
        | 0xffe0..=0xffe6
        | 0x1f300..=0x1f64f
        | 0x1f900..=0x1f9ff
        | 0x20000..=0x3fffd => 2,
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up_whatever_the_letters() {
        let rows = vec![
            vec!["Öl".to_owned(), "1".to_owned()],
            vec!["ホース".to_owned(), "22".to_owned()],
            vec!["e\u{301}".to_owned(), "333".to_owned()],
        ];
        let text = table(&[("Hose", Align::Left), ("mm", Align::Right)], &rows);
        let widths: Vec<usize> = text.lines().map(width).collect();
        assert!(widths.iter().all(|wide| *wide == widths[0]), "{text}");
    }

    #[test]
    fn lines_are_broken_between_words() {
        assert_eq!(wrap("one two three", 9, 2), "one two\n  three");
        assert_eq!(wrap("unbreakable word", 4, 0), "unbreakable\nword");
        assert_eq!(wrap("", 10, 2), "");
    }

    #[test]
    fn what_is_cut_off_is_said() {
        assert_eq!(shortened("gearbox oil cooler", 10), "gearbox o…");
        assert_eq!(shortened("short", 10), "short");
        assert_eq!(shortened("two\nlines", 10), "two lines");
    }
}
