//! The menu of what is under the pointer: what fits it.

use eframe::egui::{Button, Ui};

use super::gesture::Hit;
use super::thing::{Thing, find_run};
use super::{Looking, MenuAt};
use crate::app::actions::{Action, Ask, Edit};
use crate::model::{Nature, Via};

pub(super) fn show(ui: &mut Ui, menu: &MenuAt, looking: &Looking<'_>, actions: &mut Vec<Action>) {
    ui.set_min_width(190.0);
    match &menu.hit {
        Some(Hit::Thing { thing, along_mm }) => {
            if thing.exists(looking.bay, looking.routing) {
                of_thing(ui, thing, *along_mm, looking, actions);
            } else {
                ui.close();
            }
        }
        Some(Hit::Finding(finding)) => {
            if ui.button("Show this finding").clicked() {
                actions.push(Action::LookAt(*finding));
                ui.close();
            }
        }
        None => of_paper(ui, menu, actions),
    }
}

fn of_thing(
    ui: &mut Ui,
    thing: &Thing,
    along_mm: Option<f64>,
    looking: &Looking<'_>,
    actions: &mut Vec<Action>,
) {
    let name = thing.name(looking.bay, looking.routing);
    ui.label(crate::app::words::at_most(&name, 34));
    ui.separator();
    let mut edit = |ui: &mut Ui, text: &str, edit: Edit| {
        if ui.add(Button::new(text)).clicked() {
            if !looking.selected.contains(thing) {
                actions.push(Action::Select(thing.clone()));
            }
            actions.push(Action::Edit(edit));
            ui.close();
        }
    };
    match thing {
        Thing::Port(port) => {
            edit(ui, "Draw a hose from here", Edit::HoseFrom(port.clone()));
        }
        Thing::Hose(run) => {
            if let Some(at_mm) = along_mm {
                edit(ui, "Add a corner here", Edit::AddCorner { run: run.clone(), at_mm });
                edit(ui, "Add a clamp here", Edit::AddClamp { run: run.clone(), at_mm });
            }
            edit(ui, "Swap ends A and B", Edit::SwapEnds(run.clone()));
        }
        Thing::Via { run, via } => {
            let step = find_run(looking.bay, looking.routing, run).and_then(|r| r.via.get(*via));
            let clamp = matches!(step, Some(Via::Clamp(_)));
            let text = if clamp { "Make it a corner" } else { "Make it a clamp" };
            edit(ui, text, Edit::TurnVia { run: run.clone(), via: *via });
        }
        Thing::Obstacle(id) => {
            let now = looking.bay.obstacle(id).map(|obstacle| obstacle.nature);
            for (nature, word) in Nature::ALL {
                if now != Some(nature) {
                    edit(ui, &format!("Make it {word}"), Edit::SetNature(id.clone(), nature));
                }
            }
        }
        Thing::MovingGroup(_) => {}
    }
    if matches!(thing, Thing::Port(_) | Thing::Obstacle(_)) {
        let is_locked = thing.is_locked(looking.bay);
        let text = if is_locked { "Unlock, to drag it" } else { "Lock where it is" };
        edit(ui, text, Edit::SetLocked(!is_locked));
        ui.separator();
        edit(ui, "Put on a new group", Edit::NewGroup);
        for group in &looking.bay.groups {
            let name = Thing::MovingGroup(group.id.clone()).name(looking.bay, looking.routing);
            edit(ui, &format!("Put on {name}"), Edit::PutOn(Some(group.id.clone())));
        }
        if !looking.bay.groups.is_empty() {
            edit(ui, "Fix to the bay", Edit::PutOn(None));
        }
    }
    ui.separator();
    if !matches!(thing, Thing::Via { .. }) {
        edit(ui, "Rename\u{2026}", Edit::Rename(thing.clone()));
    }
    edit(ui, "Duplicate", Edit::Duplicate);
    edit(ui, "Mirror a copy to the other side", Edit::Mirror { copy: true });
    edit(ui, "Mirror", Edit::Mirror { copy: false });
    let delete = match thing {
        Thing::Port(_) => "Delete, with its hoses",
        _ => "Delete",
    };
    edit(ui, delete, Edit::Delete);
}

fn of_paper(ui: &mut Ui, menu: &MenuAt, actions: &mut Vec<Action>) {
    let mut entry = |ui: &mut Ui, text: &str, action: Action| {
        if ui.button(text).clicked() {
            actions.push(action);
            ui.close();
        }
    };
    entry(ui, "Add a port here", Action::Edit(Edit::AddPort { view: menu.view, at: menu.at_mm }));
    for ask in [Ask::ToolHose, Ask::ToolObstacle, Ask::SelectAll] {
        entry(ui, ask.spec().text, Action::Ask(ask));
    }
    ui.separator();
    entry(ui, "Fit this view", Action::FitView(menu.view));
}
