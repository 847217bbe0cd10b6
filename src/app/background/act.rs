//! What is asked for in the panel and its questions, and carrying it out.

use glam::DVec2;

use super::picking::{self, PickError, Picking, Task};
use super::question::Question;
use crate::app::App;
use crate::app::actions::Act;
use crate::document::{Command, file};
use crate::model::Background;

impl App {
    pub(in crate::app) fn background_act(&mut self, act: Act) {
        match act {
            Act::Dropped { files, on } => self.dropped(files, on),
            Act::Select(id) => self.desk.selected = Some(id),
            Act::Close => {
                self.desk.picking = None;
                self.desk.is_open = false;
            }
            Act::Preview { id, to, label } => {
                let command = Command::SetBackground { id, background: to, label };
                if let Some(Err(error)) = self.document.as_mut().map(|d| d.preview(&command)) {
                    self.say(error.to_string());
                }
            }
            Act::Commit => {
                if let Some(document) = &mut self.document {
                    document.commit();
                }
            }
            Act::Set { id, to, label } => {
                self.apply(&Command::SetBackground { id, background: to, label });
            }
            Act::Order { id, to } => self.apply(&Command::MoveBackground { id, to }),
            Act::Instead(id) => self.ask_for_file_instead(id),
            Act::Delete(id) => {
                self.desk.picking = None;
                self.apply(&Command::DeleteBackground(id));
            }
            Act::Pick { id, task } => self.pick(id, task),
            Act::Stop => {
                self.desk.question = None;
                self.desk.picking = None;
            }
            Act::Distance(mm) => self.answer_distance(mm),
            Act::Sides(sides) => self.answer_sides(sides),
            Act::MeshUnit(scale) => self.answer_mesh_unit(scale),
            Act::LookAgain(path) => self.desk.store.forget(&path),
        }
    }

    pub(super) fn background(&self, id: &str) -> Option<Background> {
        self.document.as_ref()?.bay().background(id).cloned()
    }

    fn pick(&mut self, id: String, task: Task) {
        let Some(background) = self.background(&id) else { return };
        if background.hidden {
            let shown = Background { hidden: false, ..background.clone() };
            let to = Box::new(shown);
            self.background_act(Act::Set { id: id.clone(), to, label: "Show background" });
        }
        self.desk.question = None;
        self.desk.picking = Some(Picking { id, task, plane: background.plane, points: Vec::new() });
    }

    /// All points are there.
    pub(super) fn picked(&mut self, picking: &Picking) {
        let Some(background) = self.background(&picking.id) else { return };
        let made = match (picking.task, &picking.points[..]) {
            (Task::Move, &[from, to]) => Ok(picking::moved(background, from, to)),
            (Task::Level, &[a, b]) => picking::levelled(background, a, b),
            (Task::Scale, &[a, b]) if a == b => Err(PickError::OnePlace),
            (Task::Scale | Task::Straighten, _) => {
                self.desk.question = Some(Question::about(picking));
                return;
            }
            _ => return,
        };
        self.settle(picking.id.clone(), picking.task, made);
    }

    fn settle(&mut self, id: String, task: Task, made: Result<Background, PickError>) {
        match made {
            Ok(to) => {
                let to = Box::new(to);
                self.background_act(Act::Set { id, to, label: task.label() });
                self.show_alone();
            }
            Err(why) => self.say(format!("{}: {why}", task.label())),
        }
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

    fn answer_distance(&mut self, mm: f64) {
        let Some(Question::Distance { id, points, .. }) = self.desk.question.take() else { return };
        let Some(background) = self.background(&id) else { return };
        self.settle(id, Task::Scale, picking::scaled(background, points, mm));
    }

    fn answer_sides(&mut self, sides: DVec2) {
        let Some(Question::Sides { id, corners, .. }) = self.desk.question.take() else { return };
        let Some(background) = self.background(&id) else { return };
        self.settle(id, Task::Straighten, picking::straightened(background, corners, sides));
    }

    /// The way from the bay's folder to a file, as it is stored.
    pub(super) fn stored_name(&self, path: &std::path::Path) -> String {
        let folder = self.document.as_ref().and_then(|d| d.path()).map(file::folder_of);
        file::name_from(folder, path)
    }
}
