//! `hosewright check`.

use crate::checks::{self, Finding, Severity};
use crate::document::file;
use crate::engine::{RoutingSolution, solve_whole};
use crate::export::check_json;
use crate::model::{Bay, Routing, name_or, routing_letter};
use crate::remedy;
use crate::report::check::Report;
use crate::report::findings::Findings;
use crate::report::verdict::Verdict;
use crate::units::quotable;

use super::args::{BayArgs, CheckArgs};
use super::findings_text::Unfolded;
use super::{Exit, Refusal, output, text};

/// A bay with one of its routings calculated.
pub(super) struct Checked {
    pub(super) bay: Bay,
    routing: usize,
    pub(super) solution: RoutingSolution,
    pub(super) findings: Vec<Finding>,
}

impl Checked {
    /// Loads, solves and checks.
    pub(super) fn load(args: &BayArgs) -> Result<Self, Refusal> {
        let bay = file::load(&args.file).map_err(|error| error.to_string())?;
        let routing = choose(&bay, args.routing.as_deref())?;
        let solution = solve_whole(&bay, &bay.routings[routing]);
        let findings = checks::check(&bay, &bay.routings[routing], &solution);
        Ok(Self { bay, routing, solution, findings })
    }

    /// With hints that were tried: for what prints hints, since trying takes long.
    #[must_use]
    pub(super) fn tried(self) -> Self {
        let (routing, solution) = (self.routing(), &self.solution);
        let (findings, _) =
            remedy::with_tried_hints(&self.bay, routing, solution, self.findings.clone());
        Self { findings, ..self }
    }

    pub(super) fn routing(&self) -> &Routing {
        &self.bay.routings[self.routing]
    }

    /// The routing in words: `routing A, Low`.
    pub(super) fn routing_words(&self) -> String {
        let routing = self.routing();
        format!("routing {}, {}", routing_letter(self.routing), name_or(&routing.name, &routing.id))
    }

    pub(super) fn verdict(&self) -> Verdict {
        Findings::of(&self.findings, self.routing(), &self.solution).verdict
    }

    pub(super) fn fails(&self) -> usize {
        self.findings.iter().filter(|finding| finding.severity == Severity::Fail).count()
    }
}

pub(super) fn run(args: &CheckArgs) -> Result<Exit, Refusal> {
    let checked = Checked::load(&args.bay)?.tried();
    let (bay, routing) = (&checked.bay, checked.routing());
    let printed = if args.json {
        check_json(&Report::new(bay, routing, &checked.solution, &checked.findings))
    } else {
        let unfolded = Unfolded { notes: args.notes, sources: args.sources };
        text::check(bay, routing, &checked.solution, &checked.findings, unfolded)
    };
    output::data(&printed)?;
    Ok(if checked.fails() > 0 { Exit::Failed } else { Exit::Fine })
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
