//! The figures of what is selected, to be changed by typing.

mod bay;
mod bench_record;
mod end_sketch;
mod group;
mod obstacle;
mod port;
mod routing;
mod run;
mod run_end;
mod send;
mod shape;
mod sleeves;
mod via;

use eframe::egui::{Button, Id, RichText, Ui};

use super::soft;
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::seen::Seen;
use crate::app::solved::Solved;
use crate::app::theme::{self, size};
use crate::model::Bay;

/// What the forms read.
struct Scene<'a> {
    bay: &'a Bay,
    solved: &'a Solved,
    /// Place of the routing in view.
    routing: usize,
}

/// Which figures are shown: of what is selected, or of what it is part of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Page {
    #[default]
    Things,
    Routing,
    Bay,
}

/// The figures of what is selected, of the routing in view, or of the bay.
pub(in crate::app) fn properties(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let (Some(document), Some(solved)) = (&seen.work.document, &seen.work.solved) else { return };
    let scene = Scene { bay: document.bay(), solved, routing: seen.work.routing };
    let things = selected(seen);
    let page = pages(ui, &things);
    let scope = Id::unique("properties");
    ui.push_id(scope, |ui| match page {
        Page::Things => of_things(ui, &scene, &things, actions),
        Page::Routing => routing::show(ui, &scene, actions),
        Page::Bay => bay::show(ui, &scene, actions),
    });
    ui.add_space(8.0);
}

/// What is selected; the hose whose card is shown where nothing is.
fn selected(seen: &Seen<'_>) -> Vec<Thing> {
    if seen.work.selected.things.is_empty() {
        return seen.work.selected.run.clone().map(Thing::Hose).into_iter().collect();
    }
    seen.work.selected.things.clone()
}

/// The choice between what is selected, the routing and the bay; it goes back to what is selected when
/// something else is.
fn pages(ui: &mut Ui, things: &[Thing]) -> Page {
    let id = Id::unique("page of properties");
    let colours = theme::palette(ui);
    let (mut page, of): (Page, Vec<Thing>) = ui.data(|data| data.get_temp(id)).unwrap_or_default();
    if of != things {
        page = Page::Things;
    }
    if things.is_empty() && page == Page::Things {
        page = Page::Bay;
    }
    ui.add_space(8.0);
    let what = headline(things);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        ui.spacing_mut().button_padding = eframe::egui::vec2(8.0, 3.0);
        let tabs = [
            (Page::Things, what.as_str(), "The figures of the selection"),
            (Page::Routing, "Routing", "The figures of the routing in view"),
            (Page::Bay, "Bay", "The figures of the whole bay, and all that is in it"),
        ];
        for (tab, text, tip) in tabs {
            if tab == Page::Things && things.is_empty() {
                continue;
            }
            let colour = if tab == page { colours.accent_text } else { colours.soft };
            let words = text;
            let text = RichText::new(text).size(size::SMALL + 0.5).color(colour);
            let button = ui.add(Button::selectable(tab == page, text)).on_hover_text(tip);
            if button.accessible_name(format!("{words} figures")).clicked() {
                page = tab;
            }
        }
    });
    ui.add_space(2.0);
    ui.data_mut(|data| data.insert_temp(id, (page, things.to_vec())));
    page
}

/// "Port", "3 ports selected".
fn headline(things: &[Thing]) -> String {
    let Some(first) = things.first() else { return String::new() };
    let (one, many) = kind_words(first);
    match things.len() {
        1 => one.to_owned(),
        count if things.iter().all(|thing| kind_words(thing) == (one, many)) => {
            format!("{count} {many} selected")
        }
        count => format!("{count} things selected"),
    }
}

fn kind_words(thing: &Thing) -> (&'static str, &'static str) {
    match thing {
        Thing::Port(_) => ("Port", "ports"),
        Thing::Obstacle(_) => ("Obstacle", "obstacles"),
        Thing::MovingGroup(_) => ("Group", "groups"),
        Thing::Hose(_) => ("Hose", "hoses"),
        Thing::Via { .. } => ("On the hose", "corners and clamps"),
    }
}

fn of_things(ui: &mut Ui, scene: &Scene<'_>, things: &[Thing], actions: &mut Vec<Action>) {
    let ids = |id: fn(&Thing) -> Option<&String>| -> Option<Vec<String>> {
        things.iter().map(|thing| id(thing).cloned()).collect()
    };
    let ports = ids(|thing| if let Thing::Port(id) = thing { Some(id) } else { None });
    let obstacles = ids(|thing| if let Thing::Obstacle(id) = thing { Some(id) } else { None });
    let hoses = ids(|thing| if let Thing::Hose(id) = thing { Some(id) } else { None });
    match (things, ports, obstacles, hoses) {
        (_, Some(ports), _, _) => port::show(ui, scene, &ports, actions),
        (_, _, Some(obstacles), _) => obstacle::show(ui, scene, &obstacles, actions),
        (_, _, _, Some(hoses)) => run::show(ui, scene, &hoses, actions),
        ([Thing::MovingGroup(id)], ..) => group::show(ui, scene, id, actions),
        ([Thing::Via { run, via }], ..) => via::show(ui, scene, run, *via, actions),
        _ => {
            let colours = theme::palette(ui);
            ui.label(soft(
                "Ports, obstacles or hoses can be changed together, the rest one by one",
                colours,
            ));
        }
    }
}

/// A name to be read: the thing's own, else its id.
fn name_or_id<'a>(name: &'a str, id: &'a str) -> &'a str {
    if name.is_empty() { id } else { name }
}
