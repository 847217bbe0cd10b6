//! The full-size template of one hose, finished: what it shows, flat or seen from three sides, at
//! true size. The writer only parts it over pages.

mod picture;
mod plane;

use crate::engine::RunSolution;
use crate::model::{Bay, Routing, Run, name_or};
use crate::units::Length;

use super::drawing::Drawing;
use super::sheet::SheetInfo;
use plane::{Facing, facings};

/// A route no point of which is farther off its plane, and which loses no more of its length when
/// seen square to it, is drawn as flat, mm: what a print at full size is held to over a page.
pub const FLAT_WITHIN_MM: f64 = 0.2;

/// The template of one hose.
#[derive(Debug, Clone, PartialEq)]
pub struct Template {
    /// Title of the bay.
    pub title: String,
    /// Name of the option.
    pub option: String,
    /// Name of the hose; its id where it has none.
    pub name: String,
    /// Its id.
    pub id: String,
    /// Day and file.
    pub info: SheetInfo,
    /// What is drawn against what is cut.
    pub note: String,
    /// One view where the route is flat, else plan, side and front.
    pub views: Vec<TemplateView>,
}

/// One picture at true size.
#[derive(Debug, Clone, PartialEq)]
pub struct TemplateView {
    /// What it is.
    pub name: String,
    /// How much of the hose it shows, in words.
    pub note: String,
    /// Length of the centre line as it shows here, mm.
    pub shown_mm: f64,
    /// 1:1, with room around for its words.
    pub drawing: Drawing,
}

impl Template {
    /// The template of one run of an option, from its solution.
    pub fn new(
        bay: &Bay,
        option: &Routing,
        run: &Run,
        solution: &RunSolution,
        info: SheetInfo,
    ) -> Self {
        let unit = bay.show_units;
        let show = |mm: f64| Length::from_mm(mm).show(unit);
        let drawn = show(solution.centreline_mm);
        let views = facings(solution)
            .into_iter()
            .map(|facing| {
                let shown_mm = facing.shown_mm(&solution.centre_line);
                TemplateView {
                    note: note(&facing, shown_mm, solution.centreline_mm, &show),
                    drawing: picture::picture(run.shown_name(), solution, &facing, unit),
                    name: facing.name,
                    shown_mm,
                }
            })
            .collect();
        Self {
            title: name_or(&bay.title, "Untitled bay").to_owned(),
            option: name_or(&option.name, &option.id).to_owned(),
            name: run.shown_name().to_owned(),
            id: run.id.clone(),
            info,
            note: format!(
                "The route as drawn: {drawn} of hose from cut end A to cut end B. The hose is cut {} \
                 longer, for its slack; cut to the length sheet, not to this paper.",
                show(solution.slack_mm)
            ),
            views,
        }
    }
}

fn note(facing: &Facing, shown_mm: f64, hose_mm: f64, show: &impl Fn(f64) -> String) -> String {
    if facing.is_flat {
        return format!(
            "The route lies flat (within {FLAT_WITHIN_MM} mm): every length here is true."
        );
    }
    let shorter = ((1.0 - shown_mm / hose_mm.max(f64::MIN_POSITIVE)) * 100.0).max(0.0);
    format!(
        "A projection, which shows {} of the hose’s {}: {shorter:.1} % too short, for the hose also goes \
         towards you and away. Lay it by all three views.",
        show(shown_mm),
        show(hose_mm)
    )
}
