//! The bench strip and the list of findings.

use eframe::egui::{Key, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};

use crate::world::World;

fn strip_name(world: &World) -> String {
    let mut strips = world.window.query_all_by_label_contains("Bench strip");
    strips.next().expect("the strip").accesskit_node().label().expect("its name")
}

#[test]
fn pointing_at_the_strip_says_how_far_from_the_cut_end() {
    let mut world = World::with_car();
    assert!(!strip_name(&world).contains("from A"));
    let rect = world.window.query_all_by_label_contains("Bench strip").next().unwrap().rect();
    world.window.hover_at(rect.center());
    world.window.run();
    assert!(strip_name(&world).contains(" from A"), "{}", strip_name(&world));
}

#[test]
fn pointing_at_a_hose_in_a_view_moves_the_cursor_of_the_strip() {
    let mut world = World::with_car();
    world.click("Hose Gearbox to oil cooler, plan");
    let at = world.place_of("Hose Gearbox to oil cooler, plan");
    world.window.hover_at(at + vec2(1.0, 0.0));
    world.window.run();
    assert!(strip_name(&world).contains(" from A"), "{}", strip_name(&world));
}

#[test]
fn the_arrow_keys_move_along_the_strip() {
    let mut world = World::with_car();
    world.window.query_all_by_label_contains("Bench strip").next().unwrap().focus();
    world.window.run();
    let first = strip_name(&world);
    for _ in 0..4 {
        world.window.key_press_modifiers(eframe::egui::Modifiers::SHIFT, Key::ArrowRight);
        world.window.run();
    }
    let moved = strip_name(&world);
    assert_ne!(first, moved);
    // Four times ten sixteenths of an inch.
    assert!(moved.contains("; 2 1/2 in from A"), "{moved}");
    assert!(!world.app().document().unwrap().is_changed(), "looking is no change");
}

#[test]
fn all_findings_are_listed_with_their_counts() {
    let mut world = World::with_car();
    let tab = world.window.query_all_by_label_contains(" to mend, ").next().unwrap();
    let label = tab.accesskit_node().label().unwrap();
    world.click(&label);
    assert!(world.has("To mend"));
    assert!(world.has_containing("To know, "), "notes are folded");
    world.click("Hoses");
    assert!(!world.has_containing("To know, "));
}
