//! Slack put where it is wanted: a clamp pulled along the strip takes hose from one free length and gives it to
//! the other; the cut length stays.

use eframe::egui::{CursorIcon, Response, Ui};

use super::layout::{Shown, StripLayout};
use crate::app::actions::Action;
use crate::document::Command;
use crate::model::Run;
use crate::units::LengthUnit;

/// A clamp that is pulled, and the slack as it was when it was taken hold of.
#[derive(Debug, Clone, PartialEq)]
struct Pulled {
    run: String,
    /// The free lengths on both sides, by their places in [`Run::slack_mm`].
    sides: [usize; 2],
    slack_mm: Vec<f64>,
    from_mm: f64,
}

/// Follows a pull on a clamp of the strip.
pub(super) fn pull(
    ui: &Ui,
    response: &Response,
    strip: &StripLayout,
    shown: Shown<'_>,
    routing: Option<&str>,
    actions: &mut Vec<Action>,
) {
    let id = response.id.with("slack");
    if response.drag_started() {
        let pulled = begin(ui, strip, shown);
        ui.data_mut(|data| {
            data.remove::<Pulled>(id);
            if let Some(pulled) = pulled {
                data.insert_temp(id, pulled);
            }
        });
    }
    let pulled: Option<Pulled> = ui.data(|data| data.get_temp(id));
    let (Some(pulled), Some(routing)) = (pulled, routing) else { return };
    if response.drag_stopped() || !response.dragged() {
        ui.data_mut(|data| data.remove::<Pulled>(id));
        actions.push(Action::Pull(None));
        return;
    }
    ui.set_cursor_icon(CursorIcon::ResizeHorizontal);
    let Some(at) = response.interact_pointer_pos().filter(|_| pulled.run == shown.run.id) else {
        return;
    };
    let by_mm = strip.bench_mm(f64::from(at.x)) - pulled.from_mm;
    let slack_mm = moved(&pulled, by_mm, shown.unit);
    // Nothing is given by free length before anything has moved.
    let is_new = shown.run.slack_mm.as_ref().unwrap_or(&pulled.slack_mm) != &slack_mm;
    if is_new {
        let slack_mm = Some(slack_mm);
        let run = Box::new(Run { slack_mm, ..shown.run.clone() });
        let (routing, id) = (routing.to_owned(), shown.run.id.clone());
        actions.push(Action::Pull(Some(Box::new(Command::SetRun {
            routing,
            id,
            run,
            label: "Move slack",
        }))));
    }
}

/// The clamp under the pointer, where it was pressed, with hose on both sides.
fn begin(ui: &Ui, strip: &StripLayout, shown: Shown<'_>) -> Option<Pulled> {
    const REACH: f64 = 8.0;
    let at = f64::from(ui.input(|input| input.pointer.press_origin())?.x);
    let off = |clamp: &super::layout::StripClamp| (clamp.middle - at).abs();
    let place = (0..strip.clamps.len())
        .filter(|place| {
            let clamp = &strip.clamps[*place];
            at >= clamp.from - REACH && at <= clamp.to + REACH
        })
        .min_by(|a, b| off(&strip.clamps[*a]).total_cmp(&off(&strip.clamps[*b])))?;
    let spans = &shown.solved.spans;
    let has = |place: usize| spans.iter().any(|span| span.place == place);
    let sides = [place, place + 1];
    if !sides.into_iter().all(has) {
        return None;
    }
    let mut slack_mm = vec![0.0; shown.run.free_lengths()];
    for span in spans {
        *slack_mm.get_mut(span.place)? = span.slack_mm;
    }
    Some(Pulled { run: shown.run.id.clone(), sides, slack_mm, from_mm: strip.bench_mm(at) })
}

/// The slack with so much more on A's side and less on B's, on the bench's step; neither below nothing.
fn moved(pulled: &Pulled, by_mm: f64, unit: LengthUnit) -> Vec<f64> {
    let [before, after] = pulled.sides;
    let step = unit.bench_step_mm();
    let (least, most) = (-pulled.slack_mm[before], pulled.slack_mm[after]);
    let by_mm = ((by_mm / step).round() * step).clamp(least, most);
    let mut slack_mm = pulled.slack_mm.clone();
    slack_mm[before] += by_mm;
    slack_mm[after] -= by_mm;
    slack_mm
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slack_moves_from_one_side_to_the_other_and_no_side_goes_below_nothing() {
        let pulled = Pulled {
            run: "r".into(),
            sides: [0, 1],
            slack_mm: vec![4.0, 10.0, 1.0],
            from_mm: 100.0,
        };
        assert_eq!(moved(&pulled, 3.2, LengthUnit::Mm), [7.0, 7.0, 1.0]);
        assert_eq!(moved(&pulled, 50.0, LengthUnit::Mm), [14.0, 0.0, 1.0]);
        assert_eq!(moved(&pulled, -50.0, LengthUnit::Mm), [0.0, 14.0, 1.0]);
    }
}
