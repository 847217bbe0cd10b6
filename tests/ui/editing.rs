//! Moving things, undo and redo.

use eframe::egui::{Event, Key, vec2};
use egui_kittest::kittest::Queryable as _;
use hosewright::app::files::Reply;
use hosewright::document::file;

use crate::world::World;

const FEED: &str = "Filter to fuel rail";

/// The car with its second routing, whose feed has a corner, and the feed selected.
fn with_corner() -> World {
    let mut world = World::with_car();
    world.press(Key::O);
    assert_eq!(world.app().routing(), 1);
    world.click(&format!("Hose {FEED}, plan"));
    assert_eq!(world.app().selected_run(), Some("feed"));
    world
}

fn corner(view: &str) -> String {
    format!("Corner 1 of {FEED}, {view}")
}

#[test]
fn from_a_sample_through_a_drag_and_undo_to_a_saved_file_and_back() {
    let mut world = World::new();
    world.click("Faults on purpose");
    assert_eq!(world.app().document().unwrap().path(), None);
    world.press(Key::O);
    world.click(&format!("Hose {FEED}, plan"));
    let (first, cut) = (world.via(FEED, 0), world.cut_mm(FEED));

    world.drag(&corner("plan"), vec2(30.0, 20.0));
    let moved = world.via(FEED, 0);
    assert!(moved.x > first.x && moved.y < first.y, "right and down in plan: {first} {moved}");
    assert_eq!(moved.z, first.z, "the height is not the plan's to change");
    assert!((world.cut_mm(FEED) - cut).abs() > 1.0, "the cut length follows");
    assert_eq!(world.app().document().unwrap().history().depth(), 1);
    assert_eq!(world.app().document().unwrap().history().undo_label(), Some("Move corner"));

    world.press_ctrl(Key::Z);
    assert_eq!(world.via(FEED, 0), first);
    assert_eq!(world.cut_mm(FEED), cut);
    world.press_ctrl_shift(Key::Z);
    assert_eq!(world.via(FEED, 0), moved);

    let path = world.in_folder("mine.bay.json");
    world.will_answer(Reply::Path(path.clone()));
    world.press_ctrl(Key::S);
    assert!(!world.app().document().unwrap().is_changed());
    assert_eq!(world.app().document().unwrap().path(), Some(path.as_path()));
    assert_eq!(file::load(&path).unwrap(), *world.bay());

    world.press_ctrl(Key::N);
    assert!(world.bay().ports.is_empty());
    world.will_answer(Reply::Path(path));
    world.press_ctrl(Key::O);
    world.press(Key::O);
    assert_eq!(world.via(FEED, 0), moved);
}

#[test]
fn a_drag_in_any_view_changes_the_two_coordinates_of_that_view() {
    // In the front view the clamp stands before the corner.
    let clamp = format!("Clamp 1 of {FEED}, front");
    let cases = [(corner("plan"), 0, 2), (corner("side"), 0, 1), (clamp, 1, 0)];
    for (thing, via, free) in cases {
        let mut world = with_corner();
        let first = world.via(FEED, via);
        world.drag(&thing, vec2(-25.0, 18.0));
        let moved = world.via(FEED, via);
        for axis in 0..3 {
            assert_eq!(
                moved[axis] == first[axis],
                axis == free,
                "{thing}, axis {axis}: {first} {moved}"
            );
        }
    }
}

#[test]
fn figures_ride_along_and_escape_lets_go() {
    let mut world = with_corner();
    let (bay, cut) = (world.bay().clone(), world.cut_mm(FEED));
    let to = world.take_and_move(&corner("side"), vec2(40.0, -25.0));
    assert!((world.cut_mm(FEED) - cut).abs() > 1.0, "it recomputes while dragging");
    world.press(Key::Escape);
    assert_eq!(*world.bay(), bay);
    // The pointer goes on; nothing is held any more.
    world.window.hover_at(to + vec2(30.0, 30.0));
    world.window.run();
    world.window.drop_at(to + vec2(30.0, 30.0));
    world.window.run();
    assert_eq!(*world.bay(), bay);
    assert_eq!(world.app().document().unwrap().history().depth(), 0);
}

#[test]
fn ports_and_clamps_are_dragged_too() {
    let mut world = World::with_car();
    let port = world.bay().ports.iter().find(|p| p.id == "clutch-slave").unwrap().clone();
    world.drag(&format!("Port {}, plan", port.name), vec2(0.0, -30.0));
    let moved = world.bay().port("clutch-slave").unwrap().at;
    assert!(moved.y > port.at.y);
    assert_eq!((moved.x, moved.z), (port.at.x, port.at.z));
    let history = world.app().document().unwrap().history();
    assert_eq!((history.depth(), history.undo_label()), (1, Some("Move port")));

    let name = world.run("Clutch, master to slave").name.clone();
    let first = world.via(&name, 0);
    world.drag(&format!("Clamp 1 of {name}, front"), vec2(12.0, -30.0));
    let moved = world.via(&name, 0);
    assert_eq!(moved.x, first.x);
    assert!(moved.z > first.z);
    assert_eq!(world.app().document().unwrap().history().undo_label(), Some("Move clamp"));
}

#[test]
fn the_keyboard_is_enough_to_reach_and_move_a_thing() {
    let mut world = with_corner();
    let first = world.via(FEED, 0);
    world.window.get_by_label(&corner("side")).focus();
    world.window.run();
    world.press(Key::ArrowRight);
    world.press(Key::ArrowRight);
    world.window.key_press_modifiers(eframe::egui::Modifiers::SHIFT, Key::ArrowUp);
    world.window.run();
    let moved = world.via(FEED, 0);
    // The bay is in inches: two steps of 1/16 in, then ten.
    let by = glam::dvec3(2.0, 0.0, 10.0) * 25.4 / 16.0;
    assert!((moved - first - by).length() < 1e-9, "{}", moved - first);
    assert!(world.window.get_by_label(&corner("side")).is_focused(), "the arrows stay with it");
}

#[test]
fn a_corner_can_be_taken_hold_of_only_on_the_selected_hose() {
    let mut world = with_corner();
    assert!(world.has(&corner("plan")));
    world.click("Hose Gearbox to oil cooler, plan");
    assert!(!world.has(&corner("plan")));
}

#[test]
fn undo_says_what_it_takes_back() {
    let mut world = with_corner();
    world.drag(&corner("plan"), vec2(30.0, 20.0));
    world.click("Edit");
    assert!(world.has_containing("Undo move corner"));
}

#[test]
fn a_drag_shows_in_the_frame_in_which_it_was_made() {
    let mut world = with_corner();
    let from = world.take_and_move(&corner("plan"), vec2(30.0, 20.0));
    for by in [vec2(45.0, 10.0), vec2(70.0, 30.0), vec2(20.0, 60.0)] {
        let before = world.place_of(&corner("plan"));
        world.window.hover_at(from + by);
        world.window.step();
        let moved = world.place_of(&corner("plan")) - before;
        assert!(moved.length() > 5.0, "one frame after the pointer moved: {moved:?}");
        let cut = hosewright::units::Length::from_mm(world.cut_mm(FEED));
        assert!(world.has(&cut.bench(world.bay().show_units)), "the card says what was solved");
    }
    world.window.drop_at(from + vec2(20.0, 60.0));
    world.window.run();
}

#[test]
fn keys_change_the_bay_only_at_the_drawing() {
    let mut world = World::with_car();
    let ports = world.bay().ports.len();
    let name = world.bay().port("clutch-master").unwrap().name.clone();
    world.click(&format!("Port {name}, plan"));
    world.press_button("Routing");
    world.press(Key::Delete);
    world.press_ctrl(Key::D);
    world.window.event(Event::Paste("/home/me/dump/hose.txt".to_owned()));
    world.window.run();
    assert_eq!(world.bay().ports.len(), ports);
    assert_eq!(world.app().document().unwrap().history().depth(), 0);
    assert!(world.has_containing("Click in a view first"));
    world.click(&format!("Port {name}, plan"));
    world.press_ctrl(Key::D);
    assert_eq!(world.app().document().unwrap().history().depth(), 1);
}
