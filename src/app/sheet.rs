//! What is written of the routing in view: the length sheet, labels, a template.

use super::canvas::camera::View;
use crate::app::work::Work;
use crate::export::true_scale::{ViewDrawing, ViewFormat};
use crate::export::{Format, LabelKind, Paper, PdfError, Template, labels};
use crate::report::answer::Answer;
use crate::report::sheet::{Sheet, SheetInfo};

/// What was written; none where nothing is open.
type Written = Option<Result<Vec<u8>, PdfError>>;

impl Work {
    /// The sheet in a format, on the paper usual for the bay's unit.
    pub(super) fn sheet(&self, format: Format) -> Written {
        let sheet = self.finished_sheet(format.asks(self.sheet_info()))?;
        Some(format.write(&sheet, Paper::usual_for(sheet.unit)))
    }

    /// Bench tags and labels for finished hoses as PDF, likewise.
    pub(super) fn labels(&self) -> Written {
        let sheet = self.finished_sheet(self.sheet_info().without_lengths())?;
        Some(labels(&sheet, &LabelKind::ALL, Paper::usual_for(sheet.unit)))
    }

    /// The full-size template of a hose and its paper, likewise; none where there is no such hose.
    pub(super) fn finished_template(&self, run: &str) -> Option<(Template, Paper)> {
        let answer = &self.solved.as_ref()?.answer;
        let place = answer.routing().runs.iter().position(|known| known.id == run)?;
        let made = Template::new(answer, place, self.sheet_info())?;
        Some((made, Paper::usual_for(answer.bay().show_units)))
    }

    /// A view in true scale.
    pub(super) fn drawing(&self, view: View, format: ViewFormat) -> Option<Vec<u8>> {
        let answer = &self.solved.as_ref()?.answer;
        let view = match view {
            View::Plan => crate::drawing::View::Plan,
            View::Side => crate::drawing::View::Side,
            View::Front => crate::drawing::View::Front,
        };
        Some(format.write(&ViewDrawing::new(answer, view)))
    }

    fn finished_sheet(&self, info: SheetInfo) -> Option<Sheet> {
        let answer = &self.solved.as_ref()?.answer;
        Some(if info.with_lengths {
            Sheet::new(&Answer::clone(answer).with_tried_hints(), info)
        } else {
            Sheet::new(answer, info)
        })
    }

    fn sheet_info(&self) -> SheetInfo {
        let path = self.document.as_ref().and_then(|document| document.path());
        SheetInfo::of(path, crate::clock::today())
    }

    /// What stands against cutting, of one hose or of all, said when something is written.
    pub(super) fn before_cutting(&self, run: Option<&str>) -> String {
        let Some(solved) = &self.solved else { return String::new() };
        let runs = &solved.answer.routing().runs;
        let place = run.and_then(|id| runs.iter().position(|run| run.id == id));
        let verdict =
            place.map_or(solved.answer.told.verdict, |place| solved.answer.verdict_on(place));
        let stop = verdict.stop();
        if stop.is_empty() { stop } else { format!(". {stop}") }
    }
}
