//! What snaps while something is held: from the drag and the bay to a request.

use glam::DVec2;

use super::App;
use super::canvas::snap::{self, CutLengthTrial, RouteBeside, SnapRequest, Snapped};
use super::canvas::thing::Thing;
use super::canvas::tool::Drag;
use crate::engine::RunSolution;
use crate::model::Run;

impl App {
    /// Where what is held lands with the pointer at `pointer` (in the plane of the view).
    pub(super) fn landing(&self, drag: &Drag, pointer: DVec2) -> Option<Snapped> {
        let (document, solved) = (self.document.as_ref()?, self.solved.as_ref()?);
        let (bay, thing) = (document.bay(), &drag.thing);
        let route = match thing {
            Thing::Via { run, via } => self
                .hoses()
                .find(|(hose, _)| hose.id == *run)
                .and_then(|(hose, solved)| RouteBeside::of(bay, hose, solved, *via)),
            _ => None,
        };
        let trial = self.hose_of(thing).and_then(|hose| CutLengthTrial::new(bay, hose, thing));
        let cut_length = |place| trial.as_ref()?.cut_length(place);
        let scale = self.canvas.cameras.of(drag.view).points_per_mm;
        let raw = pointer + drag.grip;
        Some(snap::snap(&SnapRequest {
            moving: std::slice::from_ref(thing),
            route: route.as_ref(),
            cut_length: trial.is_some().then_some(&cut_length),
            previous: drag.snapped.as_ref(),
            ..SnapRequest::moving(&solved.scene, (drag.view, scale), drag.from, raw)
        }))
    }

    /// The hoses of the option in view that could be solved.
    fn hoses(&self) -> impl Iterator<Item = (&Run, &RunSolution)> {
        let document = self.document.as_ref();
        let option = document.and_then(|document| document.bay().options.get(self.option));
        let runs = option.map(|option| option.runs.as_slice()).unwrap_or_default();
        runs.iter().enumerate().filter_map(|(i, run)| {
            let solved = self.solved.as_ref()?;
            Some((run, solved.routing.run(i)?))
        })
    }

    /// The one hose whose length changes with a thing: of several on one port, the chosen one.
    fn hose_of(&self, thing: &Thing) -> Option<&Run> {
        let changes = |run: &&Run| match thing {
            Thing::Port(port) => run.from.port == *port || run.to.port == *port,
            Thing::Via { run: id, .. } => run.id == *id,
            Thing::Hose(_) | Thing::Solid(_) => false,
        };
        let hoses = || self.hoses().map(|(run, _)| run).filter(changes);
        let chosen = hoses().find(|run| self.chosen.run.as_deref() == Some(run.id.as_str()));
        chosen.or_else(|| hoses().next().filter(|_| hoses().count() == 1))
    }
}
