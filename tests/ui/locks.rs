//! What is screwed on or measured stays where it is under the pointer, until it is unlocked.

use eframe::egui::{Key, vec2};
use hosewright::document::file;
use hosewright::model::{Bay, Obstacle, Port};

use crate::world::World;

/// A box in the open, beside the engine: nothing lies over it in the plan.
const BOX: &str = "Obstacle Gearbox oil cooler, plan";

fn port<'a>(bay: &'a Bay, id: &str) -> &'a Port {
    bay.port(id).unwrap()
}

fn cooler(world: &World) -> Obstacle {
    world.bay().obstacle("cooler").unwrap().clone()
}

/// The menu of a thing, by the right button.
fn ask(world: &mut World, label: &str, entry: &str) {
    let at = world.place_of(label);
    let button = eframe::egui::PointerButton::Secondary;
    world.window.hover_at(at);
    for pressed in [true, false] {
        let modifiers = eframe::egui::Modifiers::NONE;
        world.window.event(eframe::egui::Event::PointerButton {
            pos: at,
            button,
            pressed,
            modifiers,
        });
    }
    world.window.run();
    world.click(entry);
}

#[test]
fn an_obstacle_is_dragged_only_when_it_is_unlocked_and_its_ports_go_with_it() {
    let mut world = World::with_car();
    let (before, first) = (world.bay().clone(), cooler(&world));
    world.drag(BOX, vec2(30.0, 40.0));
    assert_eq!(cooler(&world), first, "not by aiming at something else");
    world.click(BOX);
    world.drag(BOX, vec2(30.0, 40.0));
    assert_eq!(cooler(&world), first, "nor where it is selected");
    assert!(world.has_containing("is locked"), "which it says");
    assert_eq!(world.bay().obstacles, before.obstacles);

    ask(&mut world, BOX, "Unlock, to drag it");
    assert_eq!(world.app().document().unwrap().history().undo_label(), Some("Unlock"));
    world.drag(BOX, vec2(30.0, 40.0));
    let by = cooler(&world).shape.moved_from(&first.shape).unwrap();
    assert!(by.x > 0.0 && by.y < 0.0 && by.z == 0.0, "{by}");
    for id in ["cooler-in", "cooler-out"] {
        let went = port(world.bay(), id).at - port(&before, id).at;
        assert!(went.abs_diff_eq(by, 1e-9), "{id} went {went}, not {by}");
    }
    let unlocked = world.in_folder("unlocked.bay.json");
    file::save(&unlocked, world.bay()).unwrap();
    assert_eq!(file::load(&unlocked).unwrap().obstacle("cooler").unwrap().locked, Some(false));

    world.press_ctrl(Key::Z);
    assert_eq!(port(world.bay(), "cooler-in").at, port(&before, "cooler-in").at, "one step");
    assert_eq!(cooler(&world).shape, first.shape);
}

#[test]
fn arrow_keys_move_what_is_selected_though_it_is_locked() {
    let mut world = World::with_car();
    let first = cooler(&world);
    let before = port(world.bay(), "cooler-out").at;
    world.click(BOX);
    world.press(Key::ArrowRight);
    let by = cooler(&world).shape.moved_from(&first.shape).unwrap();
    assert!(by.abs_diff_eq(glam::dvec3(25.4 / 16.0, 0.0, 0.0), 1e-9), "{by}");
    assert!(port(world.bay(), "cooler-out").at.abs_diff_eq(before + by, 1e-9));
}

#[test]
fn a_port_that_is_screwed_in_stays_and_one_that_hangs_free_goes() {
    let mut world = World::with_car();
    let before = world.bay().clone();
    for (id, goes) in [("clutch-master", false), ("clutch-slave", true)] {
        let name = port(&before, id).name.clone();
        world.drag(&format!("Port {name}, plan"), vec2(0.0, 24.0));
        let moved = port(world.bay(), id).at != port(&before, id).at;
        assert_eq!(moved, goes, "{id}");
    }
}

#[test]
fn what_was_just_drawn_can_be_put_right_until_something_else_is_selected() {
    let mut world = World::with_car();
    world.press(Key::K);
    let at = world.place_of("Plan view") + vec2(120.0, 120.0);
    world.drag_between(at, at + vec2(40.0, 30.0));
    let drawn = |world: &World| world.bay().obstacles.last().unwrap().clone();
    let (first, middle) = (drawn(&world), at + vec2(20.0, 15.0));
    world.drag_between(middle, middle + vec2(25.0, 0.0));
    let second = drawn(&world);
    assert!(second.shape.moved_from(&first.shape).unwrap().x > 0.0);
    world.click(BOX);
    world.drag_between(middle + vec2(25.0, 0.0), middle);
    assert_eq!(drawn(&world), second, "from then on it is locked");
}

#[test]
fn a_port_put_down_on_an_obstacle_of_a_group_rides_on_that_group() {
    let mut world = World::with_car();
    world.press(Key::P);
    // On the gearbox, off its hoses.
    let at = world.place_of("Obstacle Gearbox, plan");
    world.drag_between(at, at + vec2(30.0, 0.0));
    let made = world.bay().ports.last().unwrap().clone();
    assert_eq!(made.on.as_deref(), Some("gearbox"));
    assert_eq!(made.group.as_deref(), Some("engine"));
    assert!(world.has_containing("and moves with"), "it says so");
    assert!(made.is_locked() && made.locked.is_none());
}
