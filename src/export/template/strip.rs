//! The strip to lay a wire on: straight, at true size, a line across where each bend begins and ends.

use glam::DVec2;

use super::wire::{in_steps, signed};
use super::{NamedPlace, TemplateView};
use crate::drawing::{Dash, Drawing, Item, Shade, Stroke};
use crate::engine::RunSolution;
use crate::engine::bend_table::{BendTable, TableBend};
use crate::model::Run;
use crate::units::{LengthUnit, significant};

/// Half the strip between its edges, mm.
const HALF_MM: f64 = 5.0;
/// How far a mark stands out beside that, mm.
const OUT_MM: f64 = 4.0;
/// Paper above and below, mm.
const MARGIN_MM: f64 = 14.0;
/// Paper for the words on either side, mm.
const WORDS_MM: f64 = 88.0;

/// The strip of a table: A at the top.
pub(super) fn strip(
    run: &Run,
    solution: &RunSolution,
    table: &BendTable,
    unit: LengthUnit,
) -> TemplateView {
    let length = table.length_mm();
    let strip = Strip { unit, step_mm: table.step.mm };
    let mut items = vec![outline(length), centre_line(length)];
    let mut places = Vec::new();
    for (at_mm, words, is_strong) in strip.places(solution, table) {
        items.push(across(at_mm, is_strong));
        places.push(place(at_mm, words, is_strong));
    }
    for (bend, [from, to]) in table.bends.iter().zip(table.marks()) {
        if bend.radius_mm > 0.0 {
            items.insert(0, bent(from, to));
        }
    }
    let size = at(length) + DVec2::new(WORDS_MM, MARGIN_MM);
    TemplateView {
        name: "strip for a wire".to_owned(),
        note: format!(
            "Straight, at full size: {} of wire. Lay a straight wire on it, mark where bends begin and end, then bend \
             it by the table, from A to B.",
            strip.show(length)
        ),
        shown_mm: length,
        drawing: Drawing {
            title: format!("{}, the strip to lay a wire on", run.shown_name()),
            width_mm: size.x,
            height_mm: size.y,
            items,
        },
        places,
        along: (0..=length.ceil().clamp(0.0, 1e6) as u32).map(|mm| at(f64::from(mm))).collect(),
        reach_mm: HALF_MM,
    }
}

/// A place of the wire on the drawing.
fn at(at_mm: f64) -> DVec2 {
    DVec2::new(WORDS_MM, MARGIN_MM + at_mm)
}

fn aside(reach: f64) -> DVec2 {
    DVec2::new(reach, 0.0)
}

fn outline(length: f64) -> Item {
    let (a, b, half) = (at(0.0), at(length), aside(HALF_MM));
    let corners = vec![a - half, a + half, b + half, b - half];
    Item::shape(corners, None, Some(Stroke::obstacle(Shade::HoseEdge, 0.3)))
}

fn centre_line(length: f64) -> Item {
    let stroke = Stroke::dashed(Shade::Accent, 0.25, Dash::DashDot);
    Item::line(vec![at(0.0), at(length)], stroke)
}

/// Where it is to be bent, dark.
fn bent(from: f64, to: f64) -> Item {
    let half = aside(HALF_MM);
    let corners = vec![at(from) - half, at(from) + half, at(to) + half, at(to) - half];
    Item::shape(corners, Some(Shade::Obstacle), None)
}

fn ends(at_mm: f64) -> [DVec2; 2] {
    [at(at_mm) - aside(HALF_MM + OUT_MM), at(at_mm) + aside(HALF_MM + OUT_MM)]
}

fn across(at_mm: f64, is_strong: bool) -> Item {
    let width = if is_strong { 0.6 } else { 0.25 };
    Item::line(ends(at_mm).to_vec(), Stroke::obstacle(Shade::Ink, width))
}

fn place(at_mm: f64, words: String, is_strong: bool) -> NamedPlace {
    let gap_mm = HALF_MM + OUT_MM + 0.8;
    NamedPlace { at: at(at_mm), gap_mm, words, is_strong, mark: ends(at_mm) }
}

struct Strip {
    unit: LengthUnit,
    step_mm: f64,
}

impl Strip {
    fn show(&self, mm: f64) -> String {
        format!("{} {}", in_steps(mm, self.step_mm, self.unit), self.unit.sign())
    }

    /// Cut ends, then bends and clamps: where, the words, whether it is a cut end.
    fn places(
        &self,
        solution: &RunSolution,
        table: &BendTable,
    ) -> impl Iterator<Item = (f64, String, bool)> {
        let cut = [(0.0, "A, cut end"), (table.length_mm(), "B, cut end")];
        let mut all: Vec<_> = cut.map(|(at, words)| (at, words.to_owned(), true)).into();
        for (number, (bend, [from, to])) in (1..).zip(table.bends.iter().zip(table.marks())) {
            let from_words = format!("bend {number} from {}: {}", self.show(from), self.bend(bend));
            all.push((from, from_words, false));
            if bend.radius_mm > 0.0 {
                all.push((to, format!("bend {number} to {}", self.show(to)), false));
            }
        }
        let clamps = (1..).zip(&solution.clamps);
        all.extend(clamps.map(|(number, clamp)| {
            (clamp.at_mm, format!("middle of clamp {number}, as drawn"), false)
        }));
        all.into_iter()
    }

    fn bend(&self, bend: &TableBend) -> String {
        let turn = match bend.turn_deg {
            0.0 => String::new(),
            deg => format!("turn {}°, ", signed(deg)),
        };
        let radius = if bend.radius_mm > 0.0 {
            format!("R {}", in_steps(bend.radius_mm, self.step_mm, self.unit))
        } else {
            "no room for a radius".to_owned()
        };
        format!("{turn}{}°, {radius}", significant(bend.bend_deg, 4))
    }
}
