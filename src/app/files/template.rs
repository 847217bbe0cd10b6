//! The full-size template: its pages are counted first, and written in a thread of their own.

use std::path::{Path, PathBuf};

use eframe::egui::{Label, RichText, Ui};

use super::Files;
use crate::app::actions::Action;
use crate::app::jobs::{Job, Standing};
use crate::app::theme;
use crate::app::widgets::{dialog, usual};
use crate::app::work::Work;
use crate::export::{
    ASK_ABOVE_PAGES, MOST_PAGES, PageCount, Paper, PdfError, Template, template_pages,
    template_told,
};
use crate::units::shown_name;

/// A template that is to be written, or is being written.
pub(in super::super) struct Writing {
    path: PathBuf,
    /// What is said besides when it is written.
    besides: String,
    step: Step,
}

enum Step {
    /// Of so many pages: shall it be?
    Asking(Box<Template>, Paper, PageCount),
    Working(Job<Result<Vec<u8>, PdfError>>),
}

const NOT: &str = "The template was not written";

impl Files {
    pub(in super::super) fn write_template(&mut self, work: &mut Work, run: &str, path: &Path) {
        let Some((made, paper)) = work.finished_template(run) else { return };
        let besides = work.before_cutting(Some(run));
        let counted = match template_pages(&made, paper) {
            Ok(counted) if counted.pages <= MOST_PAGES => counted,
            Ok(counted) => {
                return work.trouble(NOT, vec![PdfError::TooManyPages(counted).to_string()]);
            }
            Err(error) => return work.trouble(NOT, vec![error.to_string()]),
        };
        let path = path.to_owned();
        if counted.pages > ASK_ABOVE_PAGES {
            let step = Step::Asking(Box::new(made), paper, counted);
            self.template = Some(Writing { path, besides, step });
        } else {
            self.begin_template(work, path, besides, made, paper);
        }
    }

    fn begin_template(
        &mut self,
        work: &mut Work,
        path: PathBuf,
        besides: String,
        made: Template,
        paper: Paper,
    ) {
        let title = format!("Writing {}", shown_name(&path));
        let job = Job::start(title, &self.wake, move |progress| {
            template_told(&made, paper, &|page, count| {
                let share = page as f32 / count.max(1) as f32;
                progress.tell(format!("Page {} of {count}", page + 1), Some(share));
                !progress.is_stopped()
            })
        });
        let standing = job.wait(self.patience);
        self.settle_template(work, Writing { path, besides, step: Step::Working(job) }, standing);
    }

    /// The answer to whether so many pages are wanted.
    pub(in super::super) fn want_template(&mut self, work: &mut Work) {
        if let Some(Writing { path, besides, step: Step::Asking(made, paper, _) }) =
            self.template.take()
        {
            self.begin_template(work, path, besides, *made, paper);
        }
    }

    /// Leaves it off.
    pub(in super::super) fn stop_template(&mut self, work: &mut Work) {
        if self.template.take().is_some() {
            work.say("Stopped: no template was written");
        }
    }

    /// Looks whether it is done.
    pub(in super::super) fn hear_template(&mut self, work: &mut Work) {
        if let Some(Writing { step: Step::Working(job), .. }) = &self.template {
            let standing = job.look();
            if let Some(writing) = self.template.take() {
                self.settle_template(work, writing, standing);
            }
        }
    }

    fn settle_template(
        &mut self,
        work: &mut Work,
        writing: Writing,
        standing: Standing<Result<Vec<u8>, PdfError>>,
    ) {
        match standing {
            Standing::Running => self.template = Some(writing),
            Standing::Done(made) => {
                self.write_printed(work, &writing.path, Some(made), NOT, &writing.besides);
            }
            Standing::Lost => {
                work.trouble(NOT, vec!["Writing stopped by an error of the program".into()]);
            }
        }
    }
}

/// The question, or the work.
pub(in super::super) fn show_template(ui: &mut Ui, writing: &Writing, actions: &mut Vec<Action>) {
    let modal = dialog(ui, "writing a template").show(ui, |ui| {
        ui.set_width(400.0);
        match &writing.step {
            Step::Working(job) => {
                if job.line(ui) {
                    actions.push(Action::WriteTemplate(false));
                }
            }
            Step::Asking(_, _, counted) => ask(ui, *counted, actions),
        }
    });
    if modal.should_close() {
        actions.push(Action::WriteTemplate(false));
    }
}

fn ask(ui: &mut Ui, counted: PageCount, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ui.heading(format!("{} pages", counted.pages));
    let told = format!(
        "That is the template at full size: more than {ASK_ABOVE_PAGES} pages are a long evening with tape and scissors."
    );
    ui.add(Label::new(RichText::new(told).color(colours.soft)).wrap());
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        let all = ui.button(format!("Write {} pages", counted.pages));
        usual(&all);
        if all.on_hover_text("All of them").clicked() {
            actions.push(Action::WriteTemplate(true));
        }
        if ui.button("Cancel").on_hover_text("Write nothing (Esc)").clicked() {
            actions.push(Action::WriteTemplate(false));
        }
    });
}
