//! The strip's own menu: what can be done to the hose where it was pressed.

use eframe::egui::{Id, Response, Ui};

use super::layout::{Shown, StripLayout};
use crate::app::actions::{Action, Ask, Edit};
use crate::app::canvas::thing::Thing;
use crate::model::Via;
use crate::units::Length;

/// Where the menu was asked for.
#[derive(Debug, Clone, PartialEq)]
struct Place {
    bench_mm: f64,
    via: Option<usize>,
}

pub(super) fn menu(
    ui: &Ui,
    response: &Response,
    strip: &StripLayout,
    shown: Shown<'_>,
    actions: &mut Vec<Action>,
) {
    let id: Id = response.id.with("menu");
    if response.secondary_clicked()
        && let Some(at) = response.interact_pointer_pos()
    {
        let x = f64::from(at.x);
        let via = strip.thing_at(x).and_then(|thing| match thing {
            Thing::Via { via, .. } => Some(*via),
            _ => None,
        });
        let bench_mm = strip.bench_mm(x).clamp(0.0, shown.solved.cut_length_mm);
        ui.data_mut(|data| data.insert_temp(id, Place { bench_mm, via }));
    }
    let place: Option<Place> = ui.data(|data| data.get_temp(id));
    let Some(place) = place else { return };
    response.context_menu(|ui| {
        ui.set_min_width(190.0);
        let from_a = Length::from_mm(place.bench_mm).show(shown.unit);
        ui.label(format!("{from_a} from cut end A"));
        ui.separator();
        for (text, deeds) in entries(&place, shown) {
            if ui.button(text).clicked() {
                actions.extend(deeds);
                ui.close();
            }
        }
    });
}

/// What is offered there, each with what it does.
fn entries(place: &Place, shown: Shown<'_>) -> Vec<(&'static str, Vec<Action>)> {
    let run = || shown.run.id.clone();
    if let Some(via) = place.via {
        let thing = Thing::Via { run: run(), via };
        let is_clamp = matches!(shown.run.via.get(via), Some(Via::Clamp(_)));
        let [turn, remove] = if is_clamp {
            ["Make it a corner", "Remove clamp"]
        } else {
            ["Make it a clamp", "Remove corner"]
        };
        let select = || Action::Select(thing.clone());
        return vec![
            ("Edit", vec![select()]),
            (turn, vec![select(), Action::Edit(Edit::TurnVia { run: run(), via })]),
            (remove, vec![select(), Action::Ask(Ask::Delete)]),
        ];
    }
    let at_mm = shown.solved.drawn_at_mm(place.bench_mm);
    vec![
        ("Add a clamp here", vec![Action::Edit(Edit::AddClamp { run: run(), at_mm })]),
        ("Add a corner here", vec![Action::Edit(Edit::AddCorner { run: run(), at_mm })]),
    ]
}
