//! Words in lines: measured, broken, and put one after the other in more than one style.

use glam::DVec2;

use super::block::{Block, rect};
use super::face::Faces;
use crate::drawing::{Anchor, Dash, Item, Shade, Stroke};
use crate::report::blocks::{Tone, Words};
use crate::units::line_words;

/// One point, mm.
pub(super) const PT: f64 = 25.4 / 72.0;
/// From base line to base line, against the size of the type.
const LEADING: f64 = 1.24;

/// How words look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    pub(super) size_mm: f64,
    pub(super) is_bold: bool,
    pub(super) shade: Shade,
    /// Words in a frame stand together, on this.
    pub(super) ground: Option<Shade>,
}

impl Style {
    const fn of(points: f64, is_bold: bool, shade: Shade) -> Self {
        Self { size_mm: points * PT, is_bold, shade, ground: None }
    }

    pub(super) const GROUP: Self = Self::of(8.5, false, Shade::Ink);
    pub(super) const STRONG: Self = Self::of(8.5, true, Shade::Ink);
    pub(super) const SOFT: Self = Self::of(7.2, false, Shade::Soft);
    const FRAMED: Self = Self { ground: Some(Shade::Paper), ..Self::of(7.4, true, Shade::Ink) };
    const DARK: Self = Self { ground: Some(Shade::Ink), ..Self::of(7.4, true, Shade::Paper) };
    pub(super) const LABEL: Self = Self::of(8.5, false, Shade::Soft);
    pub(super) const HEADING: Self = Self::of(9.6, true, Shade::Ink);
    pub(super) const NAME: Self = Self::of(17.0, false, Shade::Ink);
    pub(super) const TITLE: Self = Self::of(22.0, false, Shade::Ink);

    pub(super) const fn sized(self, points: f64) -> Self {
        Self { size_mm: points * PT, ..self }
    }

    pub(super) const fn shaded(self, shade: Shade) -> Self {
        Self { shade, ..self }
    }
}

/// Words of the report in their styles; `is_dense` for what is looked up.
pub(super) fn spans(words: &Words, is_dense: bool) -> Vec<Span<'_>> {
    let style = |tone| match tone {
        Tone::Plain => Style::GROUP,
        Tone::Strong => Style::STRONG,
        Tone::Soft => Style::SOFT,
        Tone::Label => Style::LABEL,
        Tone::Large => Style::STRONG.sized(14.0),
        Tone::Framed => Style::FRAMED,
        Tone::Dark => Style::DARK,
    };
    let dense = |style: Style| if is_dense { style.sized(SMALL_PT) } else { style };
    words.iter().map(|span| Span(&span.text, dense(style(span.tone)))).collect()
}

/// What is looked up, points.
const SMALL_PT: f64 = 7.1;
/// At either side of words in a frame, against their size.
const SIDE: f64 = 0.42;

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
    let end = line.last().map_or(0.0, |last| last.x + width_of(faces, &last.text, last.style));
    let aside = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => (width - end) / 2.0,
        Anchor::End => width - end,
    };
    // Capitals are about 0.73 of the size high: as much room above them as below the base line.
    let base = block.height + (0.5 * LEADING + 0.36) * size;
    for piece in &line {
        block.items.extend(frame(faces, piece, DVec2::new(aside, base)));
    }
    block.items.extend(line.into_iter().map(|piece| Item::Text {
        at: DVec2::new(piece.x + aside + side(piece.style), base),
        text: piece.text,
        size_mm: piece.style.size_mm,
        anchor: Anchor::Start,
        is_bold: piece.style.is_bold,
        shade: piece.style.shade,
    }));
    block.height += LEADING * size;
}

fn width_of(faces: &Faces, text: &str, style: Style) -> f64 {
    faces.of(style.is_bold).width_mm(text, style.size_mm) + 2.0 * side(style)
}

fn side(style: Style) -> f64 {
    style.ground.map_or(0.0, |_| SIDE * style.size_mm)
}

fn frame(faces: &Faces, piece: &Piece, at: DVec2) -> Option<Item> {
    let fill = piece.style.ground?;
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash: Dash::Obstacle };
    let size = piece.style.size_mm;
    let corner = at + DVec2::new(piece.x, -0.98 * size);
    let wide = width_of(faces, &piece.text, piece.style);
    Some(rect(corner, DVec2::new(wide, 1.26 * size), Some(fill), Some(stroke)))
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
        if style.ground.is_some() {
            words.push(Word { text: text.trim(), style: *style, is_apart });
            is_apart = true;
            continue;
        }
        for text in line_words(text) {
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
        width_of(self.faces, text, style)
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
                self.push(" ", Style { ground: None, ..first.style });
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
            Some(piece) if piece.style == style && style.ground.is_none() => {
                piece.text.push_str(text);
            }
            _ => self.line.push(Piece { x: self.x, text: text.to_owned(), style }),
        }
        self.x += wide;
    }
}
