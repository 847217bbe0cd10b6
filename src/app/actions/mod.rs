//! What the user can ask for: [`TABLE`] names every request that has a word, a tooltip or a key;
//! [`Action`] adds what is done by pointing. All are carried out in one place, `dispatch`. Nothing
//! here knows who asks, nor who carries it out.

mod answers;
mod asks;
mod background;
mod edit;
mod parts;
mod tool;

pub use answers::{Answer, Appearance, Decision, Listed, SaveOver, TypedKey};
pub use asks::{Ask, Spec, TABLE};
pub use background::Act;
pub use edit::Edit;
pub use parts::PartsAct;
pub use tool::{ObstacleKind, Tool};

use std::path::PathBuf;

use glam::{DVec2, DVec3};

use super::canvas::camera::{Area, View};
use super::canvas::gesture::Gesture;
use super::canvas::moving::Moving;
use super::canvas::thing::Thing;
use super::canvas::turn::deed::Deed;
use crate::document::Command;
use crate::engine::cutting::Allowances;
use crate::units::LengthUnit;

/// Everything that can be done.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "the names say it; fields are those of the things they name")]
pub enum Action {
    Ask(Ask),
    OpenPath(PathBuf),
    OpenDemo(usize),
    ForgetRecent,
    SetUnits(LengthUnit),
    /// A change of the bay that was tried before.
    Change(Box<Command>),
    ShowRouting(usize),
    /// Takes a routing into the comparison, or leaves it out, by its id.
    CompareRouting(String),
    /// Another kerf or trim for the cut list.
    Allow(Allowances),
    /// Selects a hose that is compared, by its id.
    SelectCompared(String),
    /// Shows a position or the motion; none: the position as drawn.
    Move(Option<Moving>),
    /// How the window looks.
    Appearance(Appearance),
    /// Selects a thing and brings it into sight.
    JumpTo(Thing),
    /// Names a routing, by its id.
    NameRouting(String, String),
    StopNamingRouting,
    /// What to do with a copy that a dead window left.
    Decide(Decision),
    /// What to do with a file that another has changed.
    SaveOver(SaveOver),
    StopOpening,
    WriteTemplate(bool),
    CloseFinder,
    ClosePage,
    /// Shows the card of a thing's hose.
    Select(Thing),
    /// A click on empty paper.
    LookAway,
    /// Looks at a finding, by its place in the list.
    LookAt(usize),
    Pan {
        view: View,
        by: DVec2,
    },
    Zoom {
        view: View,
        factor: f64,
        area: Area,
        at: DVec2,
        anchor: Option<DVec3>,
    },
    FitView(View),
    /// Whether what is in front of what is selected is seen through.
    SeeThrough(bool),
    Turn(Deed),
    /// What the pointer did in a view.
    Gesture(Gesture),
    /// A key typed while something is held.
    Typed(TypedKey),
    TakeTool(Tool),
    /// The form that the obstacle tool draws.
    DrawAs(ObstacleKind),
    Edit(Edit),
    /// Where the arrow keys stand on the bench strip, mm from cut end A.
    StripCursor(f64),
    /// A change while something is pulled; none: the pull ends.
    Pull(Option<Box<Command>>),
    /// What the list beside the views shows.
    List(Listed),
    /// Moves a thing, or all that is selected.
    Nudge {
        thing: Option<Thing>,
        view: View,
        by: DVec2,
    },
    /// Files were dropped, on a view where it is known.
    Dropped {
        files: Vec<PathBuf>,
        on: Option<(View, DVec2)>,
    },
    /// About photos and outlines.
    Background(Act),
    /// About the parts library.
    Parts(PartsAct),
    Unsaved(Answer),
    /// The path box: done with this path.
    PathGiven(PathBuf),
    /// Types a path instead of waiting for the file dialog.
    TypePath,
    CancelPath,
    CloseTrouble,
    CloseNotice,
    /// Opens a file that was written with whatever the system opens it with.
    Show(PathBuf),
}
