//! Words in lines: measured, broken, and put one after the other in more than one style.

use glam::DVec2;

use super::block::Block;
use super::face::Faces;
use crate::drawing::{Anchor, Item, Shade};

/// One point, mm.
pub(super) const PT: f64 = 25.4 / 72.0;
/// From base line to base line, against the size of the type.
const LEADING: f64 = 1.28;

/// How words look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    pub(super) size_mm: f64,
    pub(super) is_bold: bool,
    pub(super) shade: Shade,
}

impl Style {
    const fn of(points: f64, is_bold: bool, shade: Shade) -> Self {
        Self { size_mm: points * PT, is_bold, shade }
    }

    pub(super) const GROUP: Self = Self::of(8.4, false, Shade::Ink);
    pub(super) const STRONG: Self = Self::of(8.4, true, Shade::Ink);
    pub(super) const SOFT: Self = Self::of(7.4, false, Shade::Soft);
    pub(super) const LABEL: Self = Self::of(8.4, false, Shade::Soft);
    pub(super) const HEADING: Self = Self::of(9.6, true, Shade::Ink);
    pub(super) const STRAIGHT: Self = Self::of(9.6, false, Shade::Soft);
    pub(super) const NAME: Self = Self::of(18.0, false, Shade::Ink);
    pub(super) const TITLE: Self = Self::of(22.0, false, Shade::Ink);

    pub(super) const fn sized(self, points: f64) -> Self {
        Self { size_mm: points * PT, ..self }
    }

    pub(super) const fn shaded(self, shade: Shade) -> Self {
        Self { shade, ..self }
    }
}

/// Words in one style.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span<'a>(pub(super) &'a str, pub(super) Style);

/// A word as far as it is in one style.
struct Word<'a> {
    text: &'a str,
    style: Style,
    /// Whether a gap stands before it, where a line may end.
    is_apart: bool,
}

/// What stands in one line, in one style.
struct Piece {
    x: f64,
    text: String,
    style: Style,
}

/// Words in lines of at most `width`; each span goes on where the one before ended.
pub(super) fn paragraph(faces: &Faces, spans: &[Span<'_>], width: f64) -> Block {
    aligned(faces, spans, width, Anchor::Start)
}

/// The same, against the left, the middle or the right.
pub(super) fn aligned(faces: &Faces, spans: &[Span<'_>], width: f64, anchor: Anchor) -> Block {
    let mut block = Block::default();
    for line in lines(faces, spans, width) {
        put_line(&mut block, faces, line, width, anchor);
    }
    block
}

/// The words cut off with `…` where they are wider than `width`.
pub(super) fn elided(faces: &Faces, text: &str, style: Style, width: f64) -> String {
    let face = faces.of(style.is_bold);
    let one_line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if face.width_mm(&one_line, style.size_mm) <= width {
        return one_line;
    }
    let mut kept = String::new();
    let mut wide = face.width_mm("…", style.size_mm);
    for c in one_line.chars() {
        wide += face.width_mm(c.encode_utf8(&mut [0; 4]), style.size_mm);
        if wide > width {
            break;
        }
        kept.push(c);
    }
    format!("{}…", kept.trim_end())
}

fn put_line(block: &mut Block, faces: &Faces, line: Vec<Piece>, width: f64, anchor: Anchor) {
    let size = line.iter().map(|piece| piece.style.size_mm).fold(0.0, f64::max);
    let end = line.last().map_or(0.0, |last| {
        last.x + faces.of(last.style.is_bold).width_mm(&last.text, last.style.size_mm)
    });
    let aside = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => (width - end) / 2.0,
        Anchor::End => width - end,
    };
    // Capitals are about 0.73 of the size high: as much room above them as below the base line.
    let base = block.height + (0.5 * LEADING + 0.36) * size;
    block.items.extend(line.into_iter().map(|piece| Item::Text {
        at: DVec2::new(piece.x + aside, base),
        text: piece.text,
        size_mm: piece.style.size_mm,
        anchor: Anchor::Start,
        is_bold: piece.style.is_bold,
        shade: piece.style.shade,
    }));
    block.height += LEADING * size;
}

fn lines(faces: &Faces, spans: &[Span<'_>], width: f64) -> Vec<Vec<Piece>> {
    let mut lines = Lines { faces, width, done: Vec::new(), line: Vec::new(), x: 0.0 };
    let words = words(spans);
    // What is not apart stays together.
    for cluster in words.chunk_by(|_, next| !next.is_apart) {
        lines.place(cluster);
    }
    if !lines.line.is_empty() {
        lines.done.push(lines.line);
    }
    lines.done
}

fn words<'a>(spans: &[Span<'a>]) -> Vec<Word<'a>> {
    let mut words = Vec::new();
    let mut is_apart = true;
    for Span(text, style) in spans {
        is_apart |= text.starts_with(char::is_whitespace);
        for text in text.split_whitespace() {
            words.push(Word { text, style: *style, is_apart });
            is_apart = true;
        }
        is_apart = text.ends_with(char::is_whitespace) || (is_apart && text.trim().is_empty());
    }
    words
}

/// Lines as they fill.
struct Lines<'f> {
    faces: &'f Faces,
    width: f64,
    done: Vec<Vec<Piece>>,
    line: Vec<Piece>,
    x: f64,
}

impl Lines<'_> {
    fn width_of(&self, text: &str, style: Style) -> f64 {
        self.faces.of(style.is_bold).width_mm(text, style.size_mm)
    }

    /// Words that belong together, on this line or on the next one.
    fn place(&mut self, cluster: &[Word<'_>]) {
        let Some(first) = cluster.first() else { return };
        let wide: f64 = cluster.iter().map(|word| self.width_of(word.text, word.style)).sum();
        if !self.line.is_empty() {
            let gap = self.width_of(" ", first.style);
            if self.x + gap + wide > self.width {
                self.done.push(std::mem::take(&mut self.line));
                self.x = 0.0;
            } else {
                self.push(" ", first.style);
            }
        }
        for word in cluster {
            self.word(word);
        }
    }

    /// One word; broken between letters where no line could hold it.
    fn word(&mut self, word: &Word<'_>) {
        if self.x + self.width_of(word.text, word.style) <= self.width + 1e-9 {
            return self.push(word.text, word.style);
        }
        for c in word.text.chars() {
            let mut buffer = [0; 4];
            let letter = &*c.encode_utf8(&mut buffer);
            if !self.line.is_empty() && self.x + self.width_of(letter, word.style) > self.width {
                self.done.push(std::mem::take(&mut self.line));
                self.x = 0.0;
            }
            self.push(letter, word.style);
        }
    }

    fn push(&mut self, text: &str, style: Style) {
        let wide = self.width_of(text, style);
        match self.line.last_mut() {
            Some(piece) if piece.style == style => piece.text.push_str(text),
            _ => self.line.push(Piece { x: self.x, text: text.to_owned(), style }),
        }
        self.x += wide;
    }
}
