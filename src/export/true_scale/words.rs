//! Words: the title, names beside what they name, and what was found, marked and told.

use std::sync::Arc;

use glam::DVec2;

use crate::checks::{Finding, Severity};
use crate::drawing::{Anchor, Item, Label, Labels, Rect, Shade, View, around};
use crate::model::{Nature, name_or};
use crate::report::answer::Answer;
use crate::report::captions;

use super::{Layer, Pen, Shape, bounds};
use crate::units::line_words;

/// Room from line to line, in heights of the words.
const LINE: f64 = 1.5;
/// Words so much farther off than they need be, in their heights, have a line to what they name.
const FAR: f64 = 0.8;
/// The list is at least so many letters wide.
const LEAST_LETTERS: usize = 60;

/// What the drawing shows.
pub(super) fn title(answer: &Answer, view: View) -> String {
    format!("{}: {} view", answer.bay().title, view.word())
}

/// All words, and the marks of the findings.
pub(super) fn words(
    answer: &Answer,
    view: View,
    shapes: &[(Layer, Shape)],
    pen: Pen,
) -> Vec<(Layer, Shape)> {
    let field = bounds(shapes);
    let mut writer = Writer::new(field, shapes, pen);
    let findings: Vec<&Finding> = answer
        .findings
        .iter()
        .map(Arc::as_ref)
        .filter(|finding| finding.severity != Severity::Note)
        .collect();
    let mut words = Vec::new();
    for (number, finding) in (1..).zip(&findings) {
        let Some(point) = finding.point else { continue };
        let at = view.flat(point);
        words.extend(mark(finding.severity, at, pen).into_iter().map(|s| (Layer::Findings, s)));
        let name = writer.beside(at, &format!("{number}"), 1.2 * pen.words);
        words.extend(name.into_iter().map(|shape| (Layer::Findings, shape)));
    }
    words.extend(names(answer, view, &mut writer).into_iter().map(|shape| (Layer::Text, shape)));
    words.extend(list(answer, view, &findings, field, pen));
    words
}

/// Names of ports, hoses and obstacles.
fn names(answer: &Answer, view: View, writer: &mut Writer) -> Vec<Shape> {
    let mut names = Vec::new();
    for port in &answer.bay().ports {
        names.extend(writer.beside(
            view.flat(port.at),
            name_or(&port.name, &port.id),
            0.8 * writer.pen.words,
        ));
    }
    for (run, solved) in answer.routing().runs.iter().zip(&answer.solution.runs) {
        let Ok(solved) = solved else { continue };
        let middle = view.flat(solved.centre_line.point_at(solved.centreline_mm / 2.0));
        let gap = solved.hose.outside_mm / 2.0 + 0.3 * writer.pen.words;
        names.extend(writer.beside(middle, run.shown_name(), gap));
    }
    for obstacle in &answer.bay().obstacles {
        let (min, max) = obstacle.shape.bounds();
        let (a, b) = (view.flat(min), view.flat(max));
        let name = match obstacle.nature {
            Nature::Plain => obstacle.shown_name().to_owned(),
            nature => format!("{}, {}", obstacle.shown_name(), nature.word()),
        };
        names.extend(writer.inside(Rect { min: a.min(b), max: a.max(b) }, &name));
    }
    names
}

/// A fault: a cross in a square. A warning: a triangle.
fn mark(severity: Severity, at: DVec2, pen: Pen) -> Vec<Shape> {
    use super::chain::Chain;
    let half = 0.7 * pen.words;
    if severity == Severity::Fail {
        let [a, b, c, d] = around(at, DVec2::X, half, half);
        let square = Shape::Chain(Chain::straight([a, b, c, d], true));
        return vec![square, Shape::line(a, c), Shape::line(b, d)];
    }
    let corner = |turn: f64| at + DVec2::from_angle(turn.to_radians()) * 1.3 * half;
    vec![Shape::Chain(Chain::straight([90.0, 210.0, 330.0].map(corner), true))]
}

/// Below everything: what is drawn, and every fault and warning.
fn list(
    answer: &Answer,
    view: View,
    findings: &[&Finding],
    field: Rect,
    pen: Pen,
) -> Vec<(Layer, Shape)> {
    let height = pen.words;
    let letter = crate::drawing::text_width_mm("x", height);
    let letters = ((field.size().x / letter) as usize).max(LEAST_LETTERS);
    let mut lines: Vec<(Layer, String)> = Vec::new();
    let mut tell = |layer, text: &str| {
        lines.extend(wrapped(text, letters).into_iter().map(|line| (layer, line)));
    };
    let name = name_or(&answer.routing().name, &answer.routing().id);
    tell(Layer::Text, &answer.bay().title);
    tell(Layer::Text, &format!("Routing: {name}"));
    tell(Layer::Text, &format!("{}. True scale: 1 unit = 1 mm.", seen(view)));
    for (number, finding) in (1..).zip(findings) {
        let word = captions::severity(finding.severity).to_uppercase();
        let run = finding.run.as_ref().map_or_else(String::new, |run| format!(", {run}"));
        let nowhere = if finding.point.is_some() { "" } else { " (no mark)" };
        let told = format!("{number} {word}{nowhere} {}{run}: {}", finding.rule, finding.message);
        tell(Layer::Findings, &told);
    }
    let first = field.min - DVec2::new(0.0, 3.0 * height);
    (0..)
        .zip(lines)
        .map(|(k, (layer, text))| {
            let at = first - DVec2::new(0.0, LINE * height * f64::from(k));
            (layer, Shape::Words { at, text, height, anchor: Anchor::Start })
        })
        .collect()
}

fn seen(view: View) -> &'static str {
    match view {
        View::Plan => "Plan, from above: X (forward) to the right, Y (left) up",
        View::Side => "Side, from the vehicle's right: X (forward) to the right, Z up",
        View::Front => "Front, from ahead: Y (left) to the right, Z up",
    }
}

/// Lines of at most so many letters, broken between words; a longer word stands alone.
fn wrapped(text: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in line_words(text) {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Puts names where they are in the way least. Labels are placed Y down.
struct Writer {
    labels: Labels,
    pen: Pen,
}

impl Writer {
    fn new(field: Rect, shapes: &[(Layer, Shape)], pen: Pen) -> Self {
        let is_hose = |layer: Layer| matches!(layer, Layer::Hoses | Layer::Ends);
        let step = pen.words;
        let hoses = shapes.iter().filter(|(layer, _)| is_hose(*layer));
        let points: Vec<DVec2> =
            hoses.flat_map(|(_, shape)| spread(&shape.corners(), step)).map(down).collect();
        let panel = Rect {
            min: DVec2::new(field.min.x, -field.max.y),
            max: DVec2::new(field.max.x, -field.min.y),
        };
        // Words may stand a little outside.
        let mut labels = Labels::new(panel.grown(2.0 * pen.words), points, 0.8 * pen.words);
        for (layer, shape) in shapes {
            if let (Layer::Ports, Shape::Circle { at, radius }) = (layer, shape) {
                let at = down(*at);
                labels.take(Rect { min: at, max: at }.grown(*radius));
            }
        }
        Self { labels, pen }
    }

    /// The words, and a line to what they name where they had to stand off it.
    fn beside(&mut self, at: DVec2, text: &str, gap: f64) -> Vec<Shape> {
        let words = up(self.labels.beside(down(at), gap, &self.label(text)));
        let [low, high] = words.corners()[..] else { return vec![words] };
        let near = at.clamp(low, high);
        let way = (near - at).normalize_or_zero();
        if near.distance(at) < gap + FAR * self.pen.words {
            return vec![words];
        }
        vec![words, Shape::line(at + way * gap, near - way * 0.2 * self.pen.words)]
    }

    /// Inside, or beside its middle where there is no room.
    fn inside(&mut self, rect: Rect, text: &str) -> Vec<Shape> {
        let flipped = Rect {
            min: DVec2::new(rect.min.x, -rect.max.y),
            max: DVec2::new(rect.max.x, -rect.min.y),
        };
        let label = self.label(text);
        let place = self.labels.inside(flipped, &label);
        let middle = rect.min.midpoint(rect.max);
        match place {
            Some(item) => vec![up(item)],
            None => self.beside(middle, text, 0.5 * self.pen.words),
        }
    }

    fn label<'a>(&self, text: &'a str) -> Label<'a> {
        Label { text, size_mm: self.pen.words, is_bold: false, shade: Shade::Ink }
    }
}

fn down(p: DVec2) -> DVec2 {
    DVec2::new(p.x, -p.y)
}

fn up(item: Item) -> Shape {
    match item {
        Item::Text { at, text, size_mm, anchor, .. } => {
            Shape::Words { at: down(at), text, height: size_mm, anchor }
        }
        // Labels give words only.
        _ => Shape::Words {
            at: DVec2::ZERO,
            text: String::new(),
            height: 0.0,
            anchor: Anchor::Start,
        },
    }
}

/// Points along a line, no farther apart than `step`.
fn spread(line: &[DVec2], step: f64) -> Vec<DVec2> {
    line.windows(2)
        .flat_map(|w| {
            let count = (w[0].distance(w[1]) / step).ceil().clamp(1.0, 1000.0) as u32;
            (0..=count).map(move |k| w[0].lerp(w[1], f64::from(k) / f64::from(count)))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_broken_between_words() {
        assert_eq!(wrapped("one two  three", 7), ["one two", "three"]);
        assert_eq!(wrapped("extraordinarily long", 5), ["extraordinarily", "long"]);
        assert!(wrapped("", 5).is_empty());
    }

    #[test]
    fn a_fail_and_a_warning_look_different() {
        let pen = Pen { words: 5.0, line: 0.2 };
        let (fail, warn) = (Severity::Fail, Severity::Warn);
        assert_ne!(mark(fail, DVec2::ZERO, pen).len(), mark(warn, DVec2::ZERO, pen).len());
    }
}
