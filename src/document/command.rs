//! What can be done to a bay, each thing with the words that name it.

use glam::DVec3;

use crate::model::{Bay, Via};
use crate::units::LengthUnit;

/// One change of a bay.
#[derive(Debug, Clone, PartialEq)]
pub enum Command {
    /// Puts a port's seat somewhere else; its direction stays.
    MovePort {
        /// Id of the port.
        port: String,
        /// Where its seat goes.
        to: DVec3,
    },
    /// Puts a corner or a clamp of a run somewhere else.
    MoveVia {
        /// Id of the option.
        option: String,
        /// Id of the run.
        run: String,
        /// Place in `Run::via`.
        via: usize,
        /// Where it goes.
        to: DVec3,
    },
    /// Shows lengths in another unit; stored numbers stay millimetres.
    SetUnits(LengthUnit),
    /// Gives the bay another title.
    SetTitle(String),
}

/// A command that cannot be carried out. The bay is then as it was.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CommandError {
    /// No port of this id.
    #[error("there is no port \"{0}\"")]
    NoPort(String),
    /// No run of this id in the option.
    #[error("option \"{option}\" has no hose \"{run}\"")]
    NoRun {
        /// The option asked for.
        option: String,
        /// The run asked for.
        run: String,
    },
    /// The run has no such corner or clamp.
    #[error("hose \"{run}\" has no corner or clamp {}", via + 1)]
    NoVia {
        /// The run.
        run: String,
        /// The place asked for.
        via: usize,
    },
    /// A place that is not finite.
    #[error("a place has to be made of finite numbers")]
    NotFinite,
}

impl Command {
    /// Its name, as undo and redo say it.
    pub fn label(&self, bay: &Bay) -> &'static str {
        match self {
            Self::MovePort { .. } => "Move port",
            Self::MoveVia { option, run, via, .. } => match find_via(bay, option, run, *via) {
                Some(Via::Clamp(_)) => "Move clamp",
                _ => "Move corner",
            },
            Self::SetUnits(LengthUnit::Inch) => "Show inches",
            Self::SetUnits(LengthUnit::Mm) => "Show millimetres",
            Self::SetTitle(_) => "Rename bay",
        }
    }

    /// Carries it out.
    ///
    /// # Errors
    /// [`CommandError`]; the bay is then unchanged.
    pub fn apply(&self, bay: &mut Bay) -> Result<(), CommandError> {
        match self {
            Self::MovePort { port, to } => {
                let to = finite(*to)?;
                let found = bay.ports.iter_mut().find(|p| p.id == *port);
                found.ok_or_else(|| CommandError::NoPort(port.clone()))?.at = to;
            }
            Self::MoveVia { option, run, via, to } => {
                *find_via_mut(bay, option, run, *via)?.at_mut() = finite(*to)?;
            }
            Self::SetUnits(unit) => bay.show_units = *unit,
            Self::SetTitle(title) => bay.title.clone_from(title),
        }
        Ok(())
    }
}

fn finite(place: DVec3) -> Result<DVec3, CommandError> {
    if place.is_finite() { Ok(place) } else { Err(CommandError::NotFinite) }
}

fn find_via<'a>(bay: &'a Bay, option: &str, run: &str, via: usize) -> Option<&'a Via> {
    let option = bay.options.iter().find(|o| o.id == option)?;
    option.runs.iter().find(|r| r.id == run)?.via.get(via)
}

fn find_via_mut<'a>(
    bay: &'a mut Bay,
    option: &str,
    run: &str,
    via: usize,
) -> Result<&'a mut Via, CommandError> {
    let runs = bay.options.iter_mut().find(|o| o.id == option).map(|o| &mut o.runs);
    let found = runs.and_then(|runs| runs.iter_mut().find(|r| r.id == run));
    let found = found
        .ok_or_else(|| CommandError::NoRun { option: option.to_owned(), run: run.to_owned() })?;
    found.via.get_mut(via).ok_or_else(|| CommandError::NoVia { run: run.to_owned(), via })
}
