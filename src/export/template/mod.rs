//! The full-size template of one hose, finished: a flat route at true size; of one in space the bend table
//! of a wire, and the strip to lay that on. The writer only parts it over pages and finds its words a place
//! on one of them.

mod body;
mod ends;
mod picture;
mod places;
mod plane;
mod strip;
mod wire;

pub(super) use wire::bend_table_header;
pub use wire::{WireSheet, bend_table_csv};

use glam::DVec2;

use crate::engine::RunSolution;
use crate::engine::bend_table::BendTable;
use crate::model::{Bay, Run, name_or};
use crate::report::answer::Answer;
use crate::units::{Length, LengthUnit};

use crate::drawing::Drawing;
use crate::report::sheet::{SheetInfo, stop_in_words, untested};
use plane::{Facing, facing};

/// A route no point of which is farther off its plane, and which loses no more of its length when
/// seen square to it, is drawn as flat, mm: what a print at full size is held to over a page.
pub const FLAT_WITHIN_MM: f64 = 0.2;

/// Behind the note of a flat template.
const TO_SIZE: &str = " To size: seats, set-backs, what sockets and clamps grip. Not to size: how thick fittings, \
     sockets and clamps are.";
/// Behind that of a wire.
const INSTALLED: &str = " The installed hose lies a little beside the drawn route: the length sheet says how far it bows out.";

/// The template of one hose.
#[derive(Debug, Clone, PartialEq)]
pub struct Template {
    /// Title of the bay.
    pub title: String,
    /// Name of the routing.
    pub routing: String,
    /// Name of the hose; its id where it has none.
    pub name: String,
    /// Its id.
    pub id: String,
    /// Day and file.
    pub info: SheetInfo,
    /// How much there is to fix before it is cut, and the worst of it; empty where nothing fails.
    pub stop: String,
    /// Whether it is leak-tested, in words; empty where it is tight.
    pub untested: String,
    /// What is drawn against what is cut, and what is no size.
    pub note: String,
    /// The bend table of a route in space; none of a flat one.
    pub wire: Option<WireSheet>,
    /// The bay's unit.
    pub unit: LengthUnit,
    /// What is drawn at true size: the flat route, or the strip for the wire.
    pub view: TemplateView,
}

/// One picture at true size.
#[derive(Debug, Clone, PartialEq)]
pub struct TemplateView {
    /// What it is.
    pub name: String,
    /// What it is good for, in words.
    pub note: String,
    /// Length of the centre line as it shows here, mm.
    pub shown_mm: f64,
    /// 1:1, without the words at its places.
    pub drawing: Drawing,
    /// What its places are called, what matters most first.
    pub places: Vec<NamedPlace>,
    /// Points along fittings and hose, about a millimetre apart, for words to keep off.
    pub along: Vec<DVec2>,
    /// How far to either side of [`Self::along`] something is drawn, mm.
    pub reach_mm: f64,
}

/// Words about one place of a template; where they stand the pages decide.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedPlace {
    /// The place, in the drawing's millimetres.
    pub at: DVec2,
    /// How far from it the words stand at least, mm.
    pub gap_mm: f64,
    /// The words.
    pub words: String,
    /// A cut end.
    pub is_strong: bool,
    /// The line across the hose that marks it, or the place twice: where a line from the words ends.
    pub mark: [DVec2; 2],
}

impl Template {
    /// The template of the run in `place`; none where that could not be solved.
    pub fn new(answer: &Answer, place: usize, info: SheetInfo) -> Option<Self> {
        let (bay, routing) = (&**answer.bay(), answer.routing());
        let (run, solution) = (routing.runs.get(place)?, answer.solution.run(place)?);
        let unit = bay.show_units;
        let show = |mm: f64| Length::from_mm(mm).show(unit);
        let drawn = show(solution.centreline_mm);
        let table = match facing(solution) {
            Some(facing) => Err(flat(bay, run, solution, &facing)),
            None => Ok(BendTable::new(&solution.centre_line, unit)),
        };
        let (wire, view, more) = match table {
            Ok(table) => (
                Some(WireSheet::new(&table, unit)),
                strip::strip(run, solution, &table, unit),
                INSTALLED,
            ),
            Err(flat) => (None, flat, TO_SIZE),
        };
        Some(Self {
            title: name_or(&bay.title, "Untitled bay").to_owned(),
            routing: name_or(&routing.name, &routing.id).to_owned(),
            name: run.shown_name().to_owned(),
            id: run.id.clone(),
            info,
            stop: stop_in_words(answer, place),
            untested: untested(run, answer.test(place)?),
            note: format!(
                "As drawn: {drawn} of hose from cut end A to cut end B. The hose is cut {} longer, for its \
                 slack; cut to the length sheet, not to this paper.{more}",
                show(solution.slack_mm)
            ),
            wire,
            unit,
            view,
        })
    }
}

fn flat(bay: &Bay, run: &Run, solution: &RunSolution, facing: &Facing) -> TemplateView {
    let shown_mm = facing.shown_mm(&solution.centre_line);
    let within = Length::from_mm(FLAT_WITHIN_MM).show_significant(bay.show_units, 1);
    let note = format!("The route lies flat (within {within}): every length here is true.");
    places::Hose { bay, run, solution, facing }.view(facing.name.clone(), note, shown_mm)
}
