//! What the views show of the window's state.

use std::path::Path;

use glam::DVec3;

use super::camera::View;
use super::scene::Scene;
use super::thing::Thing;
use crate::app::actions::Tool;
use crate::app::background::picking::Picking;
use crate::app::background::store::Store;
use crate::app::tools::drag::{Drag, Sketch};
use crate::engine::motion::Position;
use crate::model::Bay;

/// What is under the pointer.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::app) struct Hover {
    pub(super) thing: Thing,
    pub(super) point: DVec3,
    /// On a hose, how far along its drawn centre line, mm.
    pub(super) along_mm: Option<f64>,
}

/// A place on the bench strip: on the selected hose, and the clamp or corner there.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::app) struct OnStrip {
    pub(in crate::app) thing: Thing,
    /// Along the drawn centre line, mm.
    pub(in crate::app) at_mm: f64,
    pub(in crate::app) by: PointedBy,
}

/// What points: the pointer goes before the keys.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::app) enum PointedBy {
    Pointer,
    Keys,
}

/// What the canvas shows.
pub(in crate::app) struct Looking<'a> {
    pub(in crate::app) scene: &'a Scene,
    pub(in crate::app) bay: &'a Bay,
    pub(in crate::app) routing: usize,
    /// The hose whose card is shown.
    pub(in crate::app) run: Option<&'a str>,
    /// The finding that is looked at.
    pub(in crate::app) finding: Option<usize>,
    /// The one that speaks where none is looked at.
    pub(in crate::app) speaking: Option<usize>,
    /// What is selected.
    pub(in crate::app) selected: &'a [Thing],
    /// What of it can be dragged though it is locked, for it was just made.
    pub(in crate::app) fresh: &'a [Thing],
    pub(in crate::app) tool: Tool,
    /// What is held.
    pub(in crate::app) drag: Option<&'a Drag>,
    /// A hose that is begun.
    pub(in crate::app) sketch: Option<&'a Sketch>,
    /// A measure taken.
    pub(in crate::app) measurement: Option<(View, DVec3, DVec3)>,
    /// What rides with the pointer meanwhile.
    pub(in crate::app) figures: Option<Vec<String>>,
    /// What lies under the views.
    pub(in crate::app) under: Under<'a>,
    /// The positions, the one as drawn first; empty where they are not calculated.
    pub(in crate::app) positions: &'a [Position],
}

/// What lies under the views: files that were read, and points being picked.
pub(in crate::app) struct Under<'a> {
    pub(in crate::app) store: &'a Store,
    /// The folder that files are named from.
    pub(in crate::app) folder: Option<&'a Path>,
    /// The one that the panel shows.
    pub(in crate::app) selected: Option<&'a str>,
    pub(in crate::app) picking: Option<&'a Picking>,
}

impl Looking<'_> {
    /// Whether a drag would leave a thing where it is.
    pub(super) fn holds_fast(&self, thing: &Thing) -> bool {
        thing.is_held_fast(self.bay, self.selected, self.fresh)
    }
}

impl Hover {
    /// A thing under the pointer; a hose at a place along it, or in its middle.
    pub(in crate::app) fn of(
        thing: Thing,
        along_mm: Option<f64>,
        looking: &Looking<'_>,
    ) -> Option<Self> {
        let point = match &thing {
            Thing::Hose(run) => {
                let mark = looking.scene.hoses.iter().find(|hose| hose.run == *run)?;
                mark.line.point_at(along_mm.unwrap_or(mark.line.length() / 2.0))
            }
            thing => thing.place(looking.bay, looking.routing)?,
        };
        Some(Self { thing, point, along_mm })
    }

    /// The place in the views of a place on the bench strip.
    pub(super) fn on_strip(on: &OnStrip, looking: &Looking<'_>) -> Option<Self> {
        let mark =
            looking.scene.hoses.iter().find(|hose| Some(hose.run.as_str()) == looking.run)?;
        let point = mark.line.point_at(on.at_mm);
        Some(Self { thing: on.thing.clone(), point, along_mm: Some(on.at_mm) })
    }
}
