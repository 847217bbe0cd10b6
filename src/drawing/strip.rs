//! The hose laid straight on the bench, with its marks from cut end A.

use glam::DVec2;

use super::{Anchor, Dash, Drawing, Item, Rect, Shade, Stroke, text_width_mm};

/// A mark to make.
pub(crate) struct StripMark {
    /// From cut end A.
    pub(crate) at_mm: f64,
    /// The figure, large.
    pub(crate) figure: String,
    /// What it is, small.
    pub(crate) word: String,
    /// Half the length of a clamp.
    pub(crate) grip_mm: Option<f64>,
}

/// A bend, for information.
pub(crate) struct StripBend {
    /// Where it begins and ends, from cut end A.
    pub(crate) span_mm: [f64; 2],
    /// Its figures.
    pub(crate) text: String,
    /// Whether it is tighter than the hose bears.
    pub(crate) is_tight: bool,
}

const HOSE_MM: f64 = 4.4;
const SIDE_MM: f64 = 7.0;
const FIGURE_MM: f64 = 3.7;
const WORD_MM: f64 = 2.4;
const BEND_MM: f64 = 2.5;
const BEND_ROW_MM: f64 = 3.3;
const MARK_ROW_MM: f64 = 7.4;

/// The strip: `cut_mm` of hose over `width_mm` of paper, sockets of these lengths; length to scale,
/// thickness not.
pub(crate) fn strip(
    title: String,
    cut_mm: f64,
    sockets_mm: [f64; 2],
    marks: &[StripMark],
    bends: &[StripBend],
    width_mm: f64,
) -> Drawing {
    // A hose of no length is a line.
    let scale = (width_mm - 2.0 * SIDE_MM) / cut_mm.max(1.0);
    let x = |at_mm: f64| SIDE_MM + at_mm.clamp(0.0, cut_mm) * scale;
    let bend_rows = rows(bends.iter().map(|bend| {
        let middle = f64::midpoint(x(bend.span_mm[0]), x(bend.span_mm[1]));
        (middle, text_width_mm(&bend.text, BEND_MM))
    }));
    let placed = placed(marks, x, width_mm);
    let top = count(&bend_rows) * BEND_ROW_MM + 1.6;
    let hose = Rect { min: DVec2::new(x(0.0), top), max: DVec2::new(x(cut_mm), top + HOSE_MM) };

    let mut items = group(hose);
    for (bend, row) in bends.iter().zip(&bend_rows) {
        items.extend(draw_bend(
            bend,
            hose,
            [x(bend.span_mm[0]), x(bend.span_mm[1])],
            *row,
            width_mm,
        ));
    }
    items.extend(lay_line(hose));
    items.extend(sockets(hose, sockets_mm.map(|mm| (mm * scale).min(hose.size().x / 2.0))));
    for (mark, (_, row)) in marks.iter().zip(&placed) {
        let half = mark.grip_mm.map(|mm| (mm * scale).max(0.6));
        items.extend(leader(hose, x(mark.at_mm), half, *row));
    }
    for (mark, (middle, row)) in marks.iter().zip(&placed) {
        items.extend(words(mark, hose, *middle, *row));
    }
    let mark_rows: Vec<usize> = placed.iter().map(|(_, row)| *row).collect();
    let height_mm = hose.max.y + 3.0 + count(&mark_rows) * MARK_ROW_MM;
    Drawing { title, width_mm, height_mm, items }
}

/// The first row for each in which it stands clear of those before it.
fn rows(items: impl Iterator<Item = (f64, f64)>) -> Vec<usize> {
    const APART_MM: f64 = 2.0;
    let mut ends: Vec<f64> = Vec::new();
    items
        .map(|(middle, wide)| {
            let (from, to) = (middle - wide / 2.0 - APART_MM, middle + wide / 2.0);
            let row = ends.iter().position(|end| *end <= from).unwrap_or(ends.len());
            if row == ends.len() {
                ends.push(to);
            } else {
                ends[row] = to;
            }
            row
        })
        .collect()
}

/// The middle and the row of each mark's words. Those of cut ends come last: where they have no room beside others
/// they stand below, and words above keep clear of their leaders.
fn placed(marks: &[StripMark], x: impl Fn(f64) -> f64, width: f64) -> Vec<(f64, usize)> {
    const APART_MM: f64 = 1.6;
    let wide = |mark: &StripMark| {
        text_width_mm(&mark.figure, FIGURE_MM).max(text_width_mm(&mark.word, WORD_MM))
    };
    let last = marks.len().saturating_sub(1);
    let mut order: Vec<usize> = (0..marks.len()).collect();
    order.sort_by_key(|place| *place == 0 || *place == last);
    let mut placed = vec![(0.0, 0); marks.len()];
    let mut taken: Vec<(usize, f64, f64)> = Vec::new();
    for place in order {
        let (at, half) = (x(marks[place].at_mm), wide(&marks[place]) / 2.0);
        // Off the lines of the cut ends, and on the paper.
        let is_end = place == 0 || place == last;
        let [low, high] = [0, last].map(|end| x(marks[end].at_mm));
        let middle = if is_end || high - low < 4.0 * half {
            at.clamp(half.min(width / 2.0), (width - half).max(width / 2.0))
        } else {
            at.clamp(low + half + APART_MM, high - half - APART_MM)
        };
        let (from, to) = (middle - half, middle + half);
        let is_free = |row: usize| {
            taken.iter().all(|(other, left, right)| {
                *other != row || from > right + APART_MM || to + APART_MM < *left
            })
        };
        let row = (0..marks.len()).find(|row| is_free(*row)).unwrap_or_default();
        taken.push((row, from, to));
        placed[place] = (middle, row);
    }
    placed
}

fn count(rows: &[usize]) -> f64 {
    rows.iter().max().map_or(0.0, |most| (most + 1) as f64)
}

fn group(hose: Rect) -> Vec<Item> {
    let edge = Stroke::obstacle(Shade::HoseEdge, 0.25);
    vec![Item::shape(hose.outline(), Some(Shade::Hose), Some(edge))]
}

fn lay_line(hose: Rect) -> Vec<Item> {
    let y = f64::midpoint(hose.min.y, hose.max.y);
    let points = vec![DVec2::new(hose.min.x, y), DVec2::new(hose.max.x, y)];
    vec![Item::line(points, Stroke::dashed(Shade::HoseEdge, 0.2, Dash::DashDot))]
}

fn sockets(hose: Rect, [a, b]: [f64; 2]) -> Vec<Item> {
    let socket = |from: f64, to: f64| {
        let rect =
            Rect { min: DVec2::new(from, hose.min.y - 0.5), max: DVec2::new(to, hose.max.y + 0.5) };
        Item::shape(rect.outline(), Some(Shade::Socket), None)
    };
    vec![socket(hose.min.x, hose.min.x + a), socket(hose.max.x - b, hose.max.x)]
}

fn draw_bend(
    bend: &StripBend,
    hose: Rect,
    [from, to]: [f64; 2],
    row: usize,
    width: f64,
) -> Vec<Item> {
    let rect = Rect { min: DVec2::new(from, hose.min.y), max: DVec2::new(to, hose.max.y) };
    let mut items = Vec::new();
    let shade = if bend.is_tight {
        let lines = super::hatch::hatch(&[rect.outline()], rect, 1.6);
        let stroke = Some(Stroke::obstacle(Shade::Fail, 0.35));
        items.push(Item::shape(rect.outline(), Some(Shade::Paper), stroke));
        items.push(Item::Path { lines, is_closed: false, fill: None, stroke });
        Shade::Fail
    } else {
        items.push(Item::shape(
            rect.outline(),
            Some(Shade::Paper),
            Some(Stroke::obstacle(Shade::HoseEdge, 0.25)),
        ));
        Shade::Soft
    };
    let base = hose.min.y - 1.9 - row as f64 * BEND_ROW_MM;
    items.push(Item::Text {
        at: DVec2::new(held(f64::midpoint(from, to), &bend.text, BEND_MM, width), base),
        text: bend.text.clone(),
        size_mm: BEND_MM,
        anchor: Anchor::Middle,
        is_bold: bend.is_tight,
        shade,
    });
    items
}

/// The base line of the figures in a row.
fn figure_base(hose: Rect, row: usize) -> f64 {
    hose.max.y + 2.4 + FIGURE_MM + row as f64 * MARK_ROW_MM
}

/// A line from the hose down to the words, and the frame of a clamp.
fn leader(hose: Rect, x: f64, half: Option<f64>, row: usize) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some(half) = half {
        let rect = Rect {
            min: DVec2::new(x - half, hose.min.y - 0.9),
            max: DVec2::new(x + half, hose.max.y + 0.9),
        };
        items.push(Item::shape(rect.outline(), None, Some(Stroke::obstacle(Shade::Ink, 0.4))));
    }
    let foot = figure_base(hose, row) - FIGURE_MM + 0.4;
    let line = vec![DVec2::new(x, hose.min.y), DVec2::new(x, foot)];
    items.push(Item::line(line, Stroke::obstacle(Shade::Ink, 0.3)));
    items
}

/// The figure and what it is, on white: the leaders of other rows pass behind.
fn words(mark: &StripMark, hose: Rect, x: f64, row: usize) -> Vec<Item> {
    let figure_base = figure_base(hose, row);
    let figure_at = DVec2::new(x, figure_base);
    let word_at = DVec2::new(x, figure_base + WORD_MM + 0.7);
    // Letters come out narrower than the room that is kept for them.
    let under = |at: DVec2, text: &str, size: f64| {
        let wide = text_width_mm(text, size) * 0.96;
        let corner = DVec2::new(at.x - wide / 2.0, at.y - 0.8 * size);
        let rect = Rect::from_size(corner, DVec2::new(wide, size * 1.05));
        Item::shape(rect.outline(), Some(Shade::Paper), None)
    };
    vec![
        under(figure_at, &mark.figure, FIGURE_MM),
        under(word_at, &mark.word, WORD_MM),
        Item::bold(figure_at, mark.figure.clone(), FIGURE_MM, Anchor::Middle),
        Item::soft(word_at, mark.word.clone(), WORD_MM, Anchor::Middle),
    ]
}

/// The middle of words so that they stay on the paper.
fn held(x: f64, text: &str, size: f64, width: f64) -> f64 {
    let half = (text_width_mm(text, size) / 2.0).min(width / 2.0);
    x.clamp(half, width - half)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_would_touch_go_to_the_next_row() {
        let rows = rows([(10.0, 20.0), (15.0, 20.0), (60.0, 20.0), (62.0, 20.0)].into_iter());
        assert_eq!(rows, [0, 1, 0, 1]);
    }
}
