//! Why a command cannot be carried out.

use super::super::file::Fault;

/// A command that cannot be carried out. The bay is then as it was.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CommandError {
    /// No port of this id.
    #[error("there is no port \"{0}\"")]
    NoPort(String),
    /// No solid of this id.
    #[error("there is no solid \"{0}\"")]
    NoSolid(String),
    /// No body of this id.
    #[error("there is no body \"{0}\"")]
    NoBody(String),
    /// No underlay of this id.
    #[error("there is no underlay \"{0}\"")]
    NoUnderlay(String),
    /// No option of this id.
    #[error("there is no option \"{0}\"")]
    NoOption(String),
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
    /// The last option.
    #[error("a bay needs one option at least; this is the last")]
    LastOption,
    /// A mesh is read from its file as it stands.
    #[error("\"{0}\" is a mesh, read from its file as it stands; it cannot be mirrored here")]
    Mesh(String),
    /// What would come of it could not be saved.
    #[error("{0}")]
    Refused(Fault),
}
