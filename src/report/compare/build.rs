//! From a bay to the finished comparison.

use std::sync::Arc;

use crate::drawing::{Routed, legend, routings};
use crate::model::{Bay, Routing, name_or, routing_letter};
use crate::report::answer::Answer;
use crate::report::sheet::SheetInfo;

use super::all::{All, One};
use super::sentence::sentence;
use super::{Column, Comparison, names, rows, runs};

impl Comparison {
    /// The routings of `bay` side by side, in the order given.
    pub fn new(bay: &Bay, answers: &[Arc<Answer>], info: SheetInfo) -> Self {
        let lettered: Vec<(&Routing, char)> =
            answers.iter().map(|one| (one.routing(), routing_letter(one.place()))).collect();
        let short = names::short_names(&lettered);
        let columns = answers.iter().zip(&short).map(|(one, short)| One {
            routing: one.routing(),
            short,
            letter: routing_letter(one.place()),
            figures: one.figures(),
            answer: one,
            counts: one.told.verdict,
        });
        let all = All { bay, routings: columns.collect() };
        let rows = rows::rows(&all);
        let routed: Vec<Routed<'_>> = answers
            .iter()
            .map(|one| Routed { letter: routing_letter(one.place()), solution: &one.solution })
            .collect();
        Self {
            title: name_or(&bay.title, "Untitled bay").to_owned(),
            info,
            unit: bay.show_units,
            routings: all.routings.iter().map(column).collect(),
            sentence: sentence(&all, rows.iter().all(super::Row::is_same)),
            runs: runs::runs(&all),
            views: routings(bay, &routed, bay.show_units, glam::DVec2::new(186.0, 125.0)),
            legend: (0..routed.len()).map(legend).collect(),
            remarks: remarks(&all),
            rows,
        }
    }
}

fn column(one: &One<'_>) -> Column {
    Column {
        letter: one.letter,
        id: one.routing.id.clone(),
        name: name_or(&one.routing.name, &one.routing.id).to_owned(),
        short: one.short.to_owned(),
    }
}

fn remarks(all: &All<'_>) -> Vec<String> {
    let mut remarks: Vec<String> = [
        "What is better follows from the figures as they stand, and from none that is unknown. Bends are \
         judged by their share of the minimum, to the centre line; distances by what is left of \
         the minimum clearance; from hose to hose only what the findings say.",
        "To buy: hose by the cut list, and ends, in the bay file's own money; what is on the shelf \
         costs nothing. Clamps are in it where the bay's stock tells of any; plugs and sleeves are not: it has no prices \
         for them. \
         Mass: hose and ends, dry. A part of unknown price or mass that all routings take alike makes no \
         difference between them.",
        "Pressure drop: the most that the flow of one hose takes in the hose alone, without end fittings \
         and height; of hoses without a flow, and of brake and refrigerant lines, nothing is asked. It is \
         not added up over hoses: which of them follow one another the bay file does not say. Drops less \
         than 5 % apart are told as equal.",
    ]
    .map(str::to_owned)
    .to_vec();
    let unproven = all.routings.iter().filter(|one| !one.figures.is_cost_proven);
    let unproven: Vec<String> = unproven.map(|one| one.letter.to_string()).collect();
    if !unproven.is_empty() {
        remarks.push(format!(
            "Not proven the cheapest cut list there is: {}; see the cut list.",
            unproven.join(", ")
        ));
    }
    remarks
}
