//! Why a command cannot be carried out.

use super::super::file::Fault;

/// A command that cannot be carried out. The bay is then as it was.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CommandError {
    /// No port of this id.
    #[error("there is no port \"{0}\"")]
    NoPort(String),
    /// No obstacle of this id.
    #[error("there is no obstacle \"{0}\"")]
    NoObstacle(String),
    /// No group of this id.
    #[error("there is no group \"{0}\"")]
    NoGroup(String),
    /// No background of this id.
    #[error("there is no background \"{0}\"")]
    NoBackground(String),
    /// No routing of this id.
    #[error("there is no routing \"{0}\"")]
    NoRouting(String),
    /// No run of this id in the routing.
    #[error("routing \"{routing}\" has no hose \"{run}\"")]
    NoRun {
        /// The routing asked for.
        routing: String,
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
    /// The last routing.
    #[error("a bay needs one routing at least; this is the last")]
    LastRouting,
    /// A mesh is read from its file as it stands.
    #[error("\"{0}\" is a mesh, read from its file as it stands; it cannot be mirrored here")]
    Mesh(String),
    /// What would come of it could not be saved.
    #[error("{0}")]
    Refused(Fault),
}
