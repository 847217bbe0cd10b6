//! The little questions: how far apart two points are, how long the sides of a rectangle, in what
//! unit a mesh was drawn.

use std::path::PathBuf;
use std::sync::Arc;

use eframe::egui::{Id, Key, Modifiers, Pos2, TextEdit, Ui, Window, vec2};
use glam::{DVec2, dvec2};

use super::picking::{Picking, Task};
use crate::app::actions::{Act, Action};
use crate::app::background::Desk;
use crate::app::theme;
use crate::app::widgets::marked_when_entered;
use crate::app::work::Work;
use crate::model::Mesh;
use crate::units::{Length, LengthUnit, shown_name};

/// A question that is open.
#[derive(Debug, Clone)]
pub(super) enum Question {
    Distance {
        id: String,
        points: [DVec2; 2],
        picking: Picking,
        text: String,
        form: Form,
    },
    Sides {
        id: String,
        corners: [DVec2; 4],
        picking: Picking,
        texts: [String; 2],
        form: Form,
    },
    MeshUnit {
        path: PathBuf,
        /// In the file's own unit.
        mesh: Arc<Mesh>,
    },
}

/// A question's state on the screen.
#[derive(Debug, Clone, Default)]
pub(super) struct Form {
    /// Where the pointer was when it was opened.
    at: Option<Pos2>,
    was_shown: bool,
    /// Why the entry was not taken.
    why: Option<String>,
    /// Whether to type on after it was not taken.
    again: bool,
}

impl Form {
    /// Whether the first field is to have the keyboard: when the question comes, and after a refusal.
    fn takes_focus(&mut self) -> bool {
        !self.was_shown || std::mem::take(&mut self.again)
    }

    fn refuse(&mut self, why: String) {
        self.why = Some(why);
        self.again = true;
    }
}

impl Question {
    /// The question that the points of a picking lead to.
    pub(super) fn about(picking: &Picking) -> Self {
        let id = picking.id.clone();
        let point = |i: usize| picking.points.get(i).copied().unwrap_or_default();
        let form = Form::default();
        let picked = picking.clone();
        if picking.task == Task::Straighten {
            let corners = std::array::from_fn(point);
            Self::Sides {
                id,
                corners,
                picking: picked,
                texts: [String::new(), String::new()],
                form,
            }
        } else {
            Self::Distance {
                id,
                points: [point(0), point(1)],
                picking: picked,
                text: String::new(),
                form,
            }
        }
    }
}

impl Question {
    /// The points it is about: they stay in the view while it is open.
    pub(super) fn picking(&self) -> Option<&Picking> {
        match self {
            Self::Distance { picking, .. } | Self::Sides { picking, .. } => Some(picking),
            Self::MeshUnit { .. } => None,
        }
    }
}

impl Desk {
    /// Shows the question that is open.
    pub(in crate::app) fn show_question(
        &mut self,
        work: &Work,
        ui: &mut Ui,
        actions: &mut Vec<Action>,
    ) {
        let unit = work.document.as_ref().map(|d| d.bay().show_units).unwrap_or_default();
        let act = match &mut self.question {
            None => return,
            Some(Question::Distance { text, form, points, .. }) => {
                let now = Length::from_mm(points[0].distance(points[1])).show(unit);
                distance(ui, text, form, unit, &now)
            }
            Some(Question::Sides { texts, form, .. }) => sides(ui, texts, form, unit),
            Some(Question::MeshUnit { path, mesh }) => mesh_unit(ui, path, mesh),
        };
        actions.extend(act.map(Action::Background));
    }
}

fn distance(
    ui: &Ui,
    text: &mut String,
    form: &mut Form,
    unit: LengthUnit,
    now: &str,
) -> Option<Act> {
    ask(ui, "Distance between the two points", form, |ui, form| {
        let colours = theme::palette(ui);
        ui.colored_label(colours.soft, format!("It is {now} as drawn now"));
        let entered = field(ui, "Distance", text, form.takes_focus());
        let asked = answered(ui, entered, "Set scale")?;
        if !asked {
            return Some(Act::Stop);
        }
        match positive(text, unit) {
            Ok(mm) => Some(Act::Distance(mm)),
            Err(why) => {
                form.refuse(why);
                None
            }
        }
    })
}

fn sides(ui: &Ui, texts: &mut [String; 2], form: &mut Form, unit: LengthUnit) -> Option<Act> {
    ask(ui, "Sides of the rectangle", form, |ui, form| {
        let [first, second] = texts;
        field(ui, "First side, from corner 1 to 2", first, form.takes_focus());
        let entered = field(ui, "Second side, from corner 2 to 3", second, false);
        let asked = answered(ui, entered, "Straighten")?;
        if !asked {
            return Some(Act::Stop);
        }
        match (positive(first, unit), positive(second, unit)) {
            (Ok(x), Ok(y)) => Some(Act::Sides(dvec2(x, y))),
            (Err(why), _) => {
                form.refuse(format!("First side: {why}"));
                None
            }
            (_, Err(why)) => {
                form.refuse(format!("Second side: {why}"));
                None
            }
        }
    })
}

fn mesh_unit(ui: &Ui, path: &std::path::Path, mesh: &Mesh) -> Option<Act> {
    let name = shown_name(path);
    let (lo, hi) = mesh.bounds();
    let size = hi - lo;
    ask(ui, "Unit of the mesh", &mut Form::default(), |ui, _| {
        let colours = theme::palette(ui);
        ui.label(format!("In which unit was {name} drawn?"));
        ui.colored_label(colours.soft, "An STL file does not say. The bay file keeps your answer");
        for (word, scale, show) in
            [("Millimetres", 1.0, LengthUnit::Mm), ("Inches", 25.4, LengthUnit::Inch)]
        {
            let [x, y, z] =
                (size * scale).to_array().map(|side| Length::from_mm(side).number(show));
            let told = format!("{word}: {x} × {y} × {z} {}", show.sign());
            let tip = "The box about it, along X, Y and Z";
            if ui.button(told).on_hover_text(tip).clicked() {
                return Some(Act::MeshUnit(scale));
            }
        }
        ui.button("Cancel").clicked().then_some(Act::Stop)
    })
}

/// A window beside the pointer, with what was wrong with the last answer.
fn ask(
    ui: &Ui,
    title: &str,
    form: &mut Form,
    content: impl FnOnce(&mut Ui, &mut Form) -> Option<Act>,
) -> Option<Act> {
    let middle = ui.ctx().content_rect().center();
    let at = *form.at.get_or_insert_with(|| ui.input(|i| i.pointer.latest_pos()).unwrap_or(middle));
    let window = Window::new(title)
        .id(Id::unique(title))
        .title_bar(false)
        .resizable(false)
        .default_pos(at + vec2(18.0, 18.0))
        .constrain_to(ui.ctx().content_rect().shrink(8.0));
    let shown = window.show(ui, |ui| {
        ui.set_width(250.0);
        ui.heading(title);
        let act = content(ui, form);
        if let Some(why) = &form.why {
            ui.colored_label(theme::palette(ui).fail, why);
        }
        act
    });
    form.was_shown = true;
    let is_cancelled = ui.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Escape));
    shown.and_then(|shown| shown.inner).flatten().or(is_cancelled.then_some(Act::Stop))
}

/// Whether Enter was pressed in it.
fn field(ui: &mut Ui, name: &str, text: &mut String, take_focus: bool) -> bool {
    let label = ui.label(name);
    let field = TextEdit::singleline(text)
        .desired_width(f32::INFINITY)
        .hint_text("12 3/8 in, 312 mm, 2 ft 6 in");
    let field = marked_when_entered(ui, field).labelled_by(label.id);
    if take_focus {
        field.request_focus();
    }
    field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter))
}

/// Whether it was said yes or no to, where it was answered.
fn answered(ui: &mut Ui, entered: bool, yes: &str) -> Option<bool> {
    ui.horizontal(|ui| {
        let yes = ui.button(yes).clicked() || entered;
        let no = ui.button("Cancel").clicked();
        (yes || no).then_some(yes)
    })
    .inner
}

fn positive(text: &str, unit: LengthUnit) -> Result<f64, String> {
    let length = Length::parse(text, unit).map_err(|error| error.said())?;
    let mm = length.mm();
    if mm > 0.0 { Ok(mm) } else { Err("it must be more than zero".to_owned()) }
}
