//! `hosewright check`.

use std::sync::Arc;

use crate::document::file;
use crate::export::check_json;
use crate::model::{Bay, routing_letter};
use crate::report::answer::Answer;
use crate::report::check::Report;
use crate::units::quotable;

use super::args::{BayArgs, CheckArgs};
use super::findings_text::Unfolded;
use super::{Exit, Refusal, output, text};

/// Loads a bay, solves and checks the routing that was asked for.
pub(super) fn load(args: &BayArgs) -> Result<Answer, Refusal> {
    let bay = file::load(&args.file).map_err(|error| error.to_string())?;
    let place = choose(&bay, args.routing.as_deref())?;
    Answer::of(Arc::new(bay), place).ok_or_else(|| "this bay has no routing".to_owned())
}

pub(super) fn run(args: &CheckArgs) -> Result<Exit, Refusal> {
    let answer = load(&args.bay)?.with_tried_hints();
    let printed = if args.json {
        check_json(&Report::new(&answer))
    } else {
        text::check(&answer, Unfolded { notes: args.notes, sources: args.sources })
    };
    output::data(&printed)?;
    Ok(if answer.told.verdict.faults > 0 { Exit::Failed } else { Exit::Fine })
}

/// The place of the routing that was asked for; the first where none was.
fn choose(bay: &Bay, wanted: Option<&str>) -> Result<usize, Refusal> {
    let Some(wanted) = wanted else {
        return if bay.routings.is_empty() {
            Err("this bay has no routing".to_owned())
        } else {
            Ok(0)
        };
    };
    find(bay, wanted)
}

/// The place of the routing of this id, or else of this letter.
pub(super) fn find(bay: &Bay, wanted: &str) -> Result<usize, Refusal> {
    bay.routing_called(wanted).ok_or_else(|| {
        let told = (0..).zip(&bay.routings).map(|(place, routing)| {
            format!("  {}  {}  {}", routing_letter(place), routing.id, routing.name)
        });
        let there: Vec<String> = told.collect();
        format!(
            "there is no routing \"{}\" in this bay; there are:\n{}",
            quotable(wanted),
            there.join("\n")
        )
    })
}
