//! `hosewright check`.

use crate::checks::{self, Finding, Severity};
use crate::document::file;
use crate::engine::{RoutingSolution, solve_whole};
use crate::export::Report;
use crate::model::{Bay, Routing, name_or, option_letter};

use super::args::{BayArgs, CheckArgs};
use super::{Exit, Refusal, output, text};

/// A bay with one of its options worked out.
pub(super) struct Checked {
    pub(super) bay: Bay,
    option: usize,
    pub(super) solution: RoutingSolution,
    pub(super) findings: Vec<Finding>,
}

impl Checked {
    /// Loads, solves and checks.
    pub(super) fn load(args: &BayArgs) -> Result<Self, Refusal> {
        let bay = file::load(&args.file).map_err(|error| error.to_string())?;
        let option = choose(&bay, args.option.as_deref())?;
        let solution = solve_whole(&bay, &bay.options[option]);
        let findings = checks::check(&bay, &bay.options[option], &solution);
        Ok(Self { bay, option, solution, findings })
    }

    pub(super) fn option(&self) -> &Routing {
        &self.bay.options[self.option]
    }

    /// The option in words: `option A, Low`.
    pub(super) fn option_words(&self) -> String {
        let option = self.option();
        format!("option {}, {}", option_letter(self.option), name_or(&option.name, &option.id))
    }

    pub(super) fn fails(&self) -> usize {
        self.findings.iter().filter(|finding| finding.severity == Severity::Fail).count()
    }
}

pub(super) fn run(args: &CheckArgs) -> Result<Exit, Refusal> {
    let checked = Checked::load(&args.bay)?;
    let (bay, option) = (&checked.bay, checked.option());
    let printed = if args.json {
        Report::new(bay, option, &checked.solution, &checked.findings).to_json()
    } else {
        text::check(bay, option, &checked.solution, &checked.findings)
    };
    output::data(&printed)?;
    Ok(if checked.fails() > 0 { Exit::Failed } else { Exit::Fine })
}

/// The place of the option that was asked for; the first where none was.
fn choose(bay: &Bay, wanted: Option<&str>) -> Result<usize, Refusal> {
    let Some(wanted) = wanted else {
        return if bay.options.is_empty() {
            Err("this bay has no routing option".to_owned())
        } else {
            Ok(0)
        };
    };
    find(bay, wanted)
}

/// The place of the option of this id, or else of this letter.
pub(super) fn find(bay: &Bay, wanted: &str) -> Result<usize, Refusal> {
    bay.option_called(wanted).ok_or_else(|| {
        let told = (0..).zip(&bay.options).map(|(place, option)| {
            format!("  {}  {}  {}", option_letter(place), option.id, option.name)
        });
        let there: Vec<String> = told.collect();
        format!("there is no option \"{wanted}\" in this bay; there are:\n{}", there.join("\n"))
    })
}
