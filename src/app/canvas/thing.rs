//! What can be pointed at, chosen and taken hold of.

use glam::DVec3;

use crate::document::Command;
use crate::model::Bay;

/// A thing of the bay, by its ids.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Thing {
    /// A port.
    Port(String),
    /// A solid.
    Solid(String),
    /// A hose of the option in view.
    Hose(String),
    /// A corner or a clamp of it.
    Via {
        /// Id of the run.
        run: String,
        /// Place in `Run::via`.
        via: usize,
    },
}

impl Thing {
    /// The run it is or belongs to.
    pub fn run(&self) -> Option<&str> {
        match self {
            Self::Port(_) | Self::Solid(_) => None,
            Self::Hose(run) | Self::Via { run, .. } => Some(run),
        }
    }

    /// Where it is, where it can be moved.
    pub fn place(&self, bay: &Bay, option: usize) -> Option<DVec3> {
        match self {
            Self::Port(id) => bay.port(id).map(|port| port.at),
            Self::Via { run, via } => {
                let run = bay.options.get(option)?.runs.iter().find(|r| r.id == *run)?;
                Some(run.via.get(*via)?.at())
            }
            Self::Hose(_) | Self::Solid(_) => None,
        }
    }

    /// The command that moves it.
    pub fn moved(&self, bay: &Bay, option: usize, to: DVec3) -> Option<Command> {
        match self {
            Self::Port(port) => Some(Command::MovePort { port: port.clone(), to }),
            Self::Via { run, via } => Some(Command::MoveVia {
                option: bay.options.get(option)?.id.clone(),
                run: run.clone(),
                via: *via,
                to,
            }),
            Self::Hose(_) | Self::Solid(_) => None,
        }
    }
}
