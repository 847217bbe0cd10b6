//! What is asked for in the panel and its questions, and carrying it out.

use glam::DVec2;

use super::picking::{self, PickError, Picking, Task};
use super::question::Question;
use crate::app::actions::Act;
use crate::app::background::Desk;
use crate::app::work::Work;
use crate::document::{Command, file};
use crate::model::Background;

impl Desk {
    pub(in crate::app) fn act(&mut self, work: &mut Work, act: Act) {
        match act {
            // The window asks for a file first.
            Act::Instead(_) => {}
            Act::Select(id) => self.selected = Some(id),
            Act::Close => {
                self.picking = None;
                work.photos = false;
            }
            Act::Preview { id, to, label } => {
                work.preview(&Command::SetBackground { id, background: to, label });
            }
            Act::Commit => work.commit(),
            Act::Set { id, to, label } => {
                work.apply(&Command::SetBackground { id, background: to, label });
            }
            Act::Order { id, to } => work.apply(&Command::MoveBackground { id, to }),
            Act::Delete(id) => {
                self.picking = None;
                work.apply(&Command::DeleteBackground(id));
            }
            Act::Pick { id, task } => self.pick(work, id, task),
            Act::Stop => {
                self.question = None;
                self.picking = None;
            }
            Act::Distance(mm) => self.answer_distance(work, mm),
            Act::Sides(sides) => self.answer_sides(work, sides),
            Act::MeshUnit(scale) => self.answer_mesh_unit(work, scale),
            Act::LookAgain(path) => self.store.forget(&path),
        }
    }

    fn pick(&mut self, work: &mut Work, id: String, task: Task) {
        let Some(background) = work.background(&id) else { return };
        if background.hidden {
            let shown = Background { hidden: false, ..background.clone() };
            let to = Box::new(shown);
            self.act(work, Act::Set { id: id.clone(), to, label: "Show background" });
        }
        self.question = None;
        self.picking = Some(Picking { id, task, plane: background.plane, points: Vec::new() });
    }

    /// All points are there.
    pub(super) fn picked(&mut self, work: &mut Work, picking: &Picking) {
        let Some(background) = work.background(&picking.id) else { return };
        let made = match (picking.task, &picking.points[..]) {
            (Task::Move, &[from, to]) => Ok(picking::moved(background, from, to)),
            (Task::Level, &[a, b]) => picking::levelled(background, a, b),
            (Task::Scale, &[a, b]) if a == b => Err(PickError::OnePlace),
            (Task::Scale | Task::Straighten, _) => {
                self.question = Some(Question::about(picking));
                return;
            }
            _ => return,
        };
        self.settle(work, picking.id.clone(), picking.task, made);
    }

    fn settle(
        &mut self,
        work: &mut Work,
        id: String,
        task: Task,
        made: Result<Background, PickError>,
    ) {
        match made {
            Ok(to) => {
                let to = Box::new(to);
                self.act(work, Act::Set { id, to, label: task.label() });
                work.show_alone();
            }
            Err(why) => work.say(format!("{}: {why}", task.label())),
        }
    }

    fn answer_distance(&mut self, work: &mut Work, mm: f64) {
        let Some(Question::Distance { id, points, .. }) = self.question.take() else { return };
        let Some(background) = work.background(&id) else { return };
        self.settle(work, id, Task::Scale, picking::scaled(background, points, mm));
    }

    fn answer_sides(&mut self, work: &mut Work, sides: DVec2) {
        let Some(Question::Sides { id, corners, .. }) = self.question.take() else { return };
        let Some(background) = work.background(&id) else { return };
        self.settle(work, id, Task::Straighten, picking::straightened(background, corners, sides));
    }
}

impl Work {
    pub(super) fn background(&self, id: &str) -> Option<Background> {
        self.bay()?.background(id).cloned()
    }

    /// Where nothing else is drawn yet, the views follow what has grown or shrunk.
    pub(super) fn show_alone(&mut self) {
        let nothing_else = self.document.as_ref().is_some_and(|document| {
            let bay = document.bay();
            bay.ports.is_empty() && bay.obstacles.is_empty()
        });
        if nothing_else {
            self.canvas.want_fit();
        }
    }

    /// The way from the bay's folder to a file, as it is stored.
    pub(super) fn stored_name(&self, path: &std::path::Path) -> String {
        let folder = self.document.as_ref().and_then(|d| d.path()).map(file::folder_of);
        file::name_from(folder, path)
    }
}
