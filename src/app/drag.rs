//! Moving things: a drag is a transaction of the document, and its figures ride with the pointer.

use glam::DVec2;

use super::App;
use super::canvas::camera::View;
use super::canvas::thing::Thing;
use super::canvas::tool::Drag;
use crate::document::{Command, Document};
use crate::model::Run;
use crate::units::{Length, LengthUnit};

impl App {
    pub(super) fn drag_begin(&mut self, drag: Drag) {
        let Some(document) = &mut self.document else { return };
        if self.drag.is_none() {
            document.begin();
            self.choose_thing(drag.thing.clone());
            self.drag = Some(drag);
        }
    }

    pub(super) fn drag_to(&mut self, thing: &Thing, view: View, to: DVec2) {
        let held = self.drag.as_ref().filter(|drag| drag.thing == *thing && drag.view == view);
        let Some(snapped) = held.and_then(|drag| self.landing(drag, to)) else { return };
        let (Some(drag), Some(document)) = (&mut self.drag, &mut self.document) else { return };
        let command = thing.moved(document.bay(), self.option, snapped.place);
        drag.snapped = Some(snapped);
        if let Some(command) = command
            && let Err(error) = document.preview(&command)
        {
            self.drag_abort();
            self.say(error.to_string());
        }
    }

    pub(super) fn drag_end(&mut self) {
        if self.drag.take().is_some()
            && let Some(document) = &mut self.document
        {
            document.commit();
        }
    }

    /// Says whether there was a drag to abort.
    pub(super) fn drag_abort(&mut self) -> bool {
        let was = self.drag.take().is_some();
        if let (true, Some(document)) = (was, &mut self.document) {
            document.abort();
        }
        was
    }

    pub(super) fn nudge(&mut self, thing: &Thing, view: View, by: DVec2) {
        let Some(document) = &self.document else { return };
        let Some(from) = thing.place(document.bay(), self.option) else { return };
        let to = view.with(from, view.project(from) + by);
        if let Some(command) = thing.moved(document.bay(), self.option, to) {
            self.apply(&command);
        }
        self.choose_thing(thing.clone());
    }

    /// Carries out a command of the document.
    pub(super) fn apply(&mut self, command: &Command) {
        self.drag_abort();
        let Some(document) = &mut self.document else { return };
        if let Err(error) = document.apply(command) {
            self.say(error.to_string());
        }
    }

    /// What rides with the pointer while something is moved: where it is, and what that does to the
    /// hoses it belongs to.
    pub(super) fn riding_figures(&self) -> Option<Vec<String>> {
        let (drag, document, solved) =
            (self.drag.as_ref()?, self.document.as_ref()?, self.solved.as_ref()?);
        let bay = document.bay();
        let unit = bay.show_units;
        let place = drag.thing.place(bay, self.option)?;
        let number = |mm: f64| Length::from_mm(mm).number(unit);
        let mut lines = vec![format!(
            "X {}   Y {}   Z {}  {}",
            number(place.x),
            number(place.y),
            number(place.z),
            unit.sign()
        )];
        for (index, run) in bay.options.get(self.option)?.runs.iter().enumerate() {
            if let (true, Some(run_solved)) =
                (moves_with(&drag.thing, run), solved.routing.run(index))
            {
                lines.push(run_line(run, run_solved, unit));
            }
        }
        Some(lines)
    }
}

/// Whether a run changes when the thing moves.
fn moves_with(thing: &Thing, run: &Run) -> bool {
    match thing {
        Thing::Port(port) => run.from.port == *port || run.to.port == *port,
        Thing::Solid(_) => false,
        Thing::Hose(id) | Thing::Via { run: id, .. } => run.id == *id,
    }
}

fn run_line(run: &Run, solved: &crate::engine::RunSolution, unit: LengthUnit) -> String {
    let cut = Length::from_mm(solved.cut_length_mm).bench(unit);
    let name = super::words::run_name(run);
    match solved.min_radius_mm {
        Some(radius) => format!(
            "{name}: cut {cut}, tightest {} of {}",
            Length::from_mm(radius).number(unit),
            Length::from_mm(solved.radius_limit_mm).show(unit)
        ),
        None => format!("{name}: cut {cut}, nothing bends"),
    }
}

/// The run to show first: the one with the worst finding, else the first.
pub(super) fn first_choice(
    document: &Document,
    option: usize,
    solved: &super::solved::Solved,
) -> Option<String> {
    let runs = &document.bay().options.get(option)?.runs;
    let worst = solved.findings.iter().find_map(|finding| finding.run.clone());
    worst.or_else(|| runs.first().map(|run| run.id.clone()))
}
