//! From a bay to the finished comparison.

use crate::checks::{Finding, check};
use crate::engine::compare::OptionFigures;
use crate::engine::{RoutingSolution, solve_whole};
use crate::export::drawing::{Routed, legend, routings};
use crate::export::sheet::{Counts, SheetInfo, count_findings};
use crate::model::{Bay, Routing, name_or, option_letter};

use super::sentence::sentence;
use super::{Column, Comparison, names, rows, runs};

/// One option with everything that is known of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Answered {
    /// Its place in `Bay::options`.
    pub place: usize,
    /// Its whole solution.
    pub solution: RoutingSolution,
    /// What the checks find.
    pub findings: Vec<Finding>,
    /// Its figures.
    pub figures: OptionFigures,
}

impl Answered {
    /// Solves, checks and measures an option; none where there is none in this place.
    pub fn of(bay: &Bay, place: usize) -> Option<Self> {
        let option = bay.options.get(place)?;
        let solution = solve_whole(bay, option);
        let findings = check(bay, option, &solution);
        let figures = OptionFigures::of(bay, option, &solution);
        Some(Self { place, solution, findings, figures })
    }
}

/// One option as the parts of the comparison look at it.
pub(super) struct One<'a> {
    pub(super) option: &'a Routing,
    pub(super) short: &'a str,
    pub(super) letter: char,
    pub(super) figures: &'a OptionFigures,
    pub(super) findings: &'a [Finding],
    pub(super) counts: Counts,
}

/// Everything that is compared.
pub(super) struct All<'a> {
    pub(super) bay: &'a Bay,
    pub(super) options: Vec<One<'a>>,
}

impl Comparison {
    /// The options of a bay side by side, in the order given; those whose place is none of the bay's are
    /// left out.
    pub fn new(bay: &Bay, answered: &[Answered], info: SheetInfo) -> Self {
        let there = answered.iter().filter_map(|one| Some((one, bay.options.get(one.place)?)));
        let there: Vec<(&Answered, &Routing)> = there.collect();
        let lettered: Vec<(&Routing, char)> =
            there.iter().map(|(one, option)| (*option, option_letter(one.place))).collect();
        let short = names::short_names(&lettered);
        let options = there.iter().zip(&short).map(|((one, option), short)| One {
            option,
            short,
            letter: option_letter(one.place),
            figures: &one.figures,
            findings: &one.findings,
            counts: count_findings(one.findings.iter()),
        });
        let all = All { bay, options: options.collect() };
        let rows = rows::rows(&all);
        let routed: Vec<Routed<'_>> = there
            .iter()
            .map(|(one, _)| Routed { letter: option_letter(one.place), solution: &one.solution })
            .collect();
        Self {
            title: name_or(&bay.title, "Untitled bay").to_owned(),
            info,
            unit: bay.show_units,
            options: all.options.iter().map(column).collect(),
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
        id: one.option.id.clone(),
        name: name_or(&one.option.name, &one.option.id).to_owned(),
        short: one.short.to_owned(),
    }
}

fn remarks(all: &All<'_>) -> Vec<String> {
    let mut remarks: Vec<String> = [
        "What is better is told of the figures as they stand, and of none that is not known. Bends are \
         judged by their share of what the hose needs, at its centre line; distances by what is left of \
         the keep-off; from hose to hose only what the findings say.",
        "To buy: hose by the cutting plan, and ends, in the bay file's own money; what is on the shelf \
         costs nothing. Clamps are in it where the bay's stock tells of any; plugs and sleeves are not: it has no prices \
         for them. \
         Mass: hose and ends, dry. A part of unknown price or mass that all options take alike makes no \
         difference between them.",
        "Pressure drop: the most that the flow of one hose takes in the hose alone, without end fittings \
         and height; of hoses without a flow, and of brake and refrigerant lines, nothing is asked. It is \
         not added up over hoses: which of them follow one another the bay file does not say. Drops less \
         than 5 % apart are told as equal.",
    ]
    .map(str::to_owned)
    .to_vec();
    let unproven = all.options.iter().filter(|one| !one.figures.is_cost_proven);
    let unproven: Vec<String> = unproven.map(|one| one.letter.to_string()).collect();
    if !unproven.is_empty() {
        remarks.push(format!(
            "Not proven the cheapest cutting plan there is: {}; see the plan.",
            unproven.join(", ")
        ));
    }
    remarks
}
