//! The installed shape and the motion: shown, taken away, played.

use eframe::egui::Key;
use egui_kittest::kittest::Queryable as _;

use crate::world::World;

/// With a hose selected whose end rides on the engine.
fn with_riding_hose() -> World {
    let mut world = World::with_car();
    // In the list and on the drawing alike: any of them selects it.
    let mut named = world.window.query_all_by_label_contains("Oil cooler to gearbox");
    named.next().expect("it is listed").click();
    drop(named);
    world.window.run();
    world.press_button("Shape and clearance");
    world
}

#[test]
fn the_card_tells_how_the_hose_lies_and_what_motion_does() {
    let world = with_riding_hose();
    for text in [
        "Installed radius",
        "off the drawn route",
        "Clearance, installed",
        "Tightest bend in motion",
        "Hose to spare in motion",
        "pivoted \u{2212}3°",
    ] {
        assert!(world.has_containing(text), "{text}");
    }
    assert!(world.has_containing("As drawn"));
}

#[test]
fn the_motion_is_played_and_stopped() {
    let mut world = with_riding_hose();
    // It goes on by itself: the window never comes to rest.
    world.window.key_press(Key::R);
    world.window.run_steps(6);
    assert!(!world.has_containing("As drawn"));
    let moving = world.app().canvas().moving.expect("it moves");
    assert!(moving.plays);
    world.window.run_steps(6);
    assert_ne!(world.app().canvas().moving, Some(moving), "it goes on");
    world.press(Key::R);
    assert_eq!(world.app().canvas().moving, None);
    assert!(world.has_containing("As drawn"));
}

#[test]
fn the_true_lie_is_taken_away_and_shown_again_by_key() {
    let mut world = with_riding_hose();
    assert!(world.app().canvas().installed);
    world.press(Key::Y);
    assert!(!world.app().canvas().installed);
    world.press(Key::Y);
    assert!(world.app().canvas().installed);
}
