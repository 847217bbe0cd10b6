//! Plain text that lines up: a table and wrapped lines, by how wide letters come out on a terminal.

use unicode_width::{UnicodeWidthChar as _, UnicodeWidthStr};

use crate::units::{escaped, line_words};

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
            let cells = rows.iter().filter_map(|row| row.get(i)).map(|cell| cell.width());
            cells.fold(title.width(), usize::max)
        })
        .collect();
    let line = |cells: &mut dyn Iterator<Item = &str>| -> String {
        let padded: Vec<String> = cells
            .zip(heading.iter().zip(&widths))
            .map(|(cell, ((_, align), wide))| {
                let space = " ".repeat(wide.saturating_sub(cell.width()));
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
    for word in line_words(words) {
        let wide = word.width();
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
    if words.width() <= columns {
        return words.into_owned();
    }
    let mut out = String::new();
    for c in words.chars() {
        if out.width() + c.width().unwrap_or(0) + 1 > columns {
            break;
        }
        out.push(c);
    }
    format!("{}…", out.trim_end())
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
        let widths: Vec<usize> = text.lines().map(UnicodeWidthStr::width).collect();
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
