//! The bay being worked on, as the window has it: the document with the routing in view, what follows
//! from it, how it is looked at, what is selected and held. What changes the bay goes through here.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::actions::Listed;
use super::canvas::Canvas;
use super::canvas::camera::View;
use super::canvas::thing::{Thing, find_run};
use super::selection::Selection;
use super::solved::Solved;
use super::told::{Notice, Trouble};
use super::tools::drag::{Drag, Sketch};
use crate::document::{Command, Document, Item};
use crate::engine::RunSolution;
use crate::model::{Bay, Routing, Run};

/// The work.
#[derive(Default)]
pub(super) struct Work {
    pub(super) document: Option<Document>,
    /// Place of the routing in view.
    pub(super) routing: usize,
    pub(super) solved: Option<Solved>,
    pub(super) canvas: Canvas,
    pub(super) selected: Selection,
    /// What the list shows.
    pub(super) listed: Listed,
    /// Whether photos and outlines are shown in the place of the card.
    pub(super) photos: bool,
    /// What is held with the pointer: one transaction of the document.
    pub(super) drag: Option<Drag>,
    /// A hose that is begun.
    pub(super) sketch: Option<Sketch>,
    /// The routing whose name is being typed, by its id, and the name so far.
    pub(super) naming: Option<(String, String)>,
    pub(super) trouble: Option<Trouble>,
    pub(super) notice: Option<Notice>,
}

impl Work {
    /// Another bay; how it is looked at stays but for what is to be seen.
    pub(super) fn begin(&mut self, document: Document) {
        let canvas = std::mem::take(&mut self.canvas);
        let (listed, trouble) = (self.listed, self.trouble.take());
        *self = Self { document: Some(document), canvas, listed, trouble, ..Self::default() };
        self.canvas.ghost = None;
        self.canvas.want_fit();
    }

    pub(super) fn bay(&self) -> Option<&Arc<Bay>> {
        self.document.as_ref().map(Document::bay)
    }

    pub(super) fn routing_in_view(&self) -> Option<&Routing> {
        self.bay()?.routings.get(self.routing)
    }

    /// The hoses of the routing in view.
    pub(super) fn runs(&self) -> &[Run] {
        self.routing_in_view().map_or(&[], |routing| &routing.runs)
    }

    /// Those of them that could be solved.
    pub(super) fn solved_runs(&self) -> impl Iterator<Item = (&Run, &RunSolution)> {
        self.runs()
            .iter()
            .enumerate()
            .filter_map(|(i, run)| Some((run, self.solved.as_ref()?.answer.solution.run(i)?)))
    }

    pub(super) fn revision(&self) -> Option<u64> {
        self.document.as_ref().map(Document::revision)
    }

    /// Works the figures out again where the bay or the routing has changed.
    pub(super) fn refresh(&mut self) {
        let old = self.solved.take();
        let fresh = old.is_none();
        let ghost = self.canvas.ghost;
        self.selected.note_slot(old.as_ref());
        self.solved = self.document.as_ref().and_then(|d| Solved::of(old, d, self.routing, ghost));
        let Some(solved) = &self.solved else { return };
        self.selected.find_again(solved);
        if let Some(document) = &self.document {
            let (bay, routing) = (document.bay(), self.routing);
            self.selected.things.retain(|thing| thing.exists(bay, routing));
        }
        let known = |id: &String| self.runs().iter().any(|run| run.id == *id);
        let lost = self.selected.run.as_ref().is_some_and(|id| !known(id));
        if (fresh || lost)
            && let Some(document) = &self.document
        {
            self.selected.run = solved.first_choice(document);
        }
    }

    /// Shows what a command would do.
    pub(super) fn preview(&mut self, command: &Command) {
        if let Some(Err(error)) = self.document.as_mut().map(|d| d.preview(command)) {
            self.say(error.to_string());
        }
    }

    /// Makes what is shown a step of the history.
    pub(super) fn commit(&mut self) {
        if let Some(document) = &mut self.document {
            document.commit();
        }
    }

    /// Carries out a command of the document.
    pub(super) fn apply(&mut self, command: &Command) {
        self.drag_abort();
        let Some(document) = &mut self.document else { return };
        if let Err(error) = document.apply(command) {
            self.say(error.to_string());
        }
    }

    pub(super) fn hold(&mut self, drag: Drag) {
        let Some(document) = &mut self.document else { return };
        if self.drag.is_none() {
            document.begin();
            self.drag = Some(drag);
        }
    }

    /// Says whether there was a drag to abort.
    pub(in crate::app) fn drag_abort(&mut self) -> bool {
        let was = self.drag.take().is_some();
        if let (true, Some(document)) = (was, &mut self.document) {
            document.abort();
        }
        was
    }

    pub(super) fn show_routing(&mut self, routing: usize) {
        let exists = self.bay().is_some_and(|bay| routing < bay.routings.len());
        if exists && routing != self.routing {
            self.drag_abort();
            // What was in view goes behind what was behind it.
            if self.canvas.ghost == Some(routing) {
                self.canvas.ghost = Some(self.routing);
            }
            self.routing = routing;
            self.sketch = None;
            self.naming = None;
            self.selected.things.clear();
            self.selected.finding = None;
        }
    }

    /// Shows the card of the thing's hose; a port's is that of the first hose on it, where the one
    /// shown is not.
    pub(super) fn select_thing(&mut self, thing: Thing) {
        // Its card is in the place of the photos' panel.
        self.photos = false;
        let run = match &thing {
            Thing::Port(port) => {
                let on_port = |run: &&Run| run.from.port == *port || run.to.port == *port;
                let runs = self.runs();
                let shown = runs.iter().find(|r| Some(&r.id) == self.selected.run.as_ref());
                shown.filter(on_port).or_else(|| runs.iter().find(on_port)).map(|r| r.id.clone())
            }
            _ => thing.run().map(str::to_owned),
        };
        if run.is_some() && run != self.selected.run {
            self.selected.run = run;
            self.selected.finding = None;
        }
        self.selected.things = vec![thing];
    }

    pub(super) fn look_away(&mut self) {
        self.selected.things.clear();
        self.selected.finding = None;
    }

    pub(super) fn fit_view(&mut self, view: View) {
        if let Some(bounds) = self.solved.as_ref().and_then(|solved| solved.scene.bounds) {
            let area = self.canvas.areas[view.index()];
            self.canvas.look().fit_view(view, bounds, area);
        }
    }

    pub(super) fn look_at(&mut self, index: usize) {
        let Some(finding) = self.solved.as_ref().and_then(|s| s.answer.findings.get(index)) else {
            return;
        };
        let point = finding.point;
        match &finding.run {
            Some(run) => self.selected.run = Some(run.clone()),
            // It is about no hose: no card says it.
            None => self.listed = Listed::Findings,
        }
        self.selected.finding = Some(index);
        if let Some(point) = point {
            self.bring_into_sight(point);
        }
    }

    fn bring_into_sight(&mut self, point: glam::DVec3) {
        if !self.canvas.shows(point) {
            self.canvas.look().look_at(point);
        }
    }

    /// Selects a thing and brings it into sight.
    pub(super) fn jump_to(&mut self, thing: Thing) {
        let point = self.bay().and_then(|bay| thing.place(bay, self.routing));
        let point = point.or_else(|| {
            let run = thing.run()?;
            let bay = self.bay()?;
            let run = find_run(bay, self.routing, run)?;
            Some((bay.port(&run.from.port)?.at + bay.port(&run.to.port)?.at) / 2.0)
        });
        self.select_thing(thing);
        if let Some(point) = point {
            self.bring_into_sight(point);
        }
    }

    /// Goes through the findings as they are listed, round and round.
    pub(super) fn turn_findings(&mut self, forward: bool) {
        let listed = self.solved.as_ref().map(Solved::listed).unwrap_or_default();
        let count = listed.len();
        let at = self.selected.finding.and_then(|at| listed.iter().position(|index| *index == at));
        let next = match (at, forward) {
            _ if count == 0 => return,
            (Some(at), true) => (at + 1) % count,
            (Some(at), false) => (at + count - 1) % count,
            (None, true) => 0,
            (None, false) => count - 1,
        };
        self.look_at(listed[next]);
    }

    pub(super) fn trouble(&mut self, title: impl Into<String>, lines: Vec<String>) {
        self.trouble = Some(Trouble {
            title: title.into(),
            lines,
            comfort: "Nothing was changed. What was open before is still open.",
        });
    }

    pub(super) fn say(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice::new(text, None));
    }

    pub(super) fn step(&mut self, way: fn(&mut Document) -> Option<&'static str>) {
        // In the middle of a drag undo and redo only cancel it.
        if self.drag_abort() {
            return;
        }
        self.following_routing(|work| {
            if let Some(document) = &mut work.document {
                way(document);
            }
        });
    }

    /// Asks something of a solved run.
    pub(super) fn ask_run<T>(&self, run: &str, ask: impl Fn(&RunSolution, &Run) -> T) -> Option<T> {
        let (run, solved) = self.solved_runs().find(|(other, _)| other.id == run)?;
        Some(ask(solved, run))
    }

    /// What is selected, for the document; none where nothing is.
    pub(super) fn selected_items(&self) -> Option<Vec<Item>> {
        let document = self.document.as_ref()?;
        let things = self.selected.things.iter();
        let items: Vec<Item> =
            things.filter_map(|thing| thing.item(document.bay(), self.routing)).collect();
        (!items.is_empty()).then_some(items)
    }

    /// The folder of the bay's file.
    pub(super) fn folder(&self) -> Option<PathBuf> {
        self.document.as_ref().and_then(|d| d.path()?.parent().map(Path::to_owned))
    }
}
