//! The figures of what is selected, to be changed by typing.

mod bay;
mod bench_record;
mod clock_dial;
mod end_sketch;
mod from_library;
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

pub(super) use end_sketch::{Dimension, EndShape, show as sketch};
pub(super) use run_end::how_to_measure;
pub(super) use send::has_refused;

use eframe::egui::{Id, Ui};

use super::soft;
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::seen::Seen;
use crate::app::solved::Solved;
use crate::app::theme;
use crate::model::{Bay, Stock};

/// What the forms read.
struct Scene<'a> {
    bay: &'a Bay,
    solved: &'a Solved,
    /// Place of the routing in view.
    routing: usize,
    /// The builder's own parts.
    library: &'a Stock,
}

/// Whose figures are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Of {
    Selection,
    Routing,
    Bay,
}

/// The figures of `things`, of the routing in view, or of the bay.
pub(super) fn show(
    ui: &mut Ui,
    seen: &Seen<'_>,
    of: Of,
    things: &[Thing],
    actions: &mut Vec<Action>,
) {
    let (Some(document), Some(solved)) = (&seen.work.document, &seen.work.solved) else { return };
    let (routing, library) = (seen.work.routing, seen.parts.library.stock());
    let scene = Scene { bay: document.bay(), solved, routing, library };
    ui.push_id(Id::unique("properties"), |ui| match of {
        Of::Selection => of_things(ui, &scene, things, actions),
        Of::Routing => routing::show(ui, &scene, actions),
        Of::Bay => bay::show(ui, &scene, actions),
    });
    ui.add_space(8.0);
}

/// What is selected; the hose whose card is shown where nothing is.
pub(super) fn selected(seen: &Seen<'_>) -> Vec<Thing> {
    if seen.work.selected.things.is_empty() {
        return seen.work.selected.run.clone().map(Thing::Hose).into_iter().collect();
    }
    seen.work.selected.things.clone()
}

/// "port", "3 ports".
pub(super) fn headline(things: &[Thing]) -> String {
    let Some(first) = things.first() else { return String::new() };
    let (one, many) = kind_words(first);
    match things.len() {
        1 => one.to_owned(),
        count if things.iter().all(|thing| kind_words(thing) == (one, many)) => {
            format!("{count} {many}")
        }
        count => format!("{count} things"),
    }
}

fn kind_words(thing: &Thing) -> (&'static str, &'static str) {
    match thing {
        Thing::Port(_) => ("port", "ports"),
        Thing::Obstacle(_) => ("obstacle", "obstacles"),
        Thing::MovingGroup(_) => ("group", "groups"),
        Thing::Hose(_) => ("hose", "hoses"),
        Thing::Via { .. } => ("on the hose", "corners and clamps"),
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
