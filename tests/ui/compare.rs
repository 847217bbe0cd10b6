//! Routings side by side in the window.

use eframe::egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::Queryable as _;
use hosewright::app::files::Reply;

use crate::world::World;

/// With the panel open and the comparison worked out.
fn opened() -> World {
    let mut world = World::with_car();
    world.window.key_press_modifiers(Modifiers::SHIFT, Key::O);
    world.window.run();
    world.wait_for("Nearest obstacle, as installed");
    world
}

#[test]
fn the_panel_tells_the_trade_off_and_the_other_routing_lies_behind() {
    let mut world = World::with_car();
    assert_eq!(world.app().canvas().ghost, None);
    world.click("Routings menu");
    world.window.get_by_label_contains("Compare routings").click();
    world.window.run();
    world.wait_for("neither may be built yet");
    assert!(world.has("fewer") && world.has("more room"), "what is better, in words");
    assert!(world.has("Hose by hose"));
    assert_eq!(world.app().canvas().ghost, Some(1));
    world.click("Close panel");
    assert!(!world.has("Hose by hose"));
    assert_eq!(world.app().canvas().ghost, None);
}

#[test]
fn a_click_on_a_hose_selects_it() {
    let mut world = opened();
    let line = "Compared hose Oil cooler to gearbox";
    world.window.get_by_label(line).scroll_to_me();
    world.window.run();
    world.click(line);
    assert_eq!(world.app().selected_run(), Some("oil-back"));
    assert!(world.has("Hose by hose"), "the panel stays");
}

#[test]
fn a_change_is_calculated_again_and_the_old_answer_stays_until_then() {
    let mut world = opened();
    let held = "Port Clutch slave cylinder, inlet, plan";
    let to = world.take_and_move(held, vec2(0.0, -30.0));
    assert!(world.has_containing("Out of date; being calculated"));
    assert!(world.has("Hose by hose"), "it stays to be read");
    world.window.drop_at(to);
    world.window.run();
    world.wait_while_it_says("Out of date; being calculated");
}

#[test]
fn the_page_is_written_from_there() {
    let mut world = opened();
    let path = world.in_folder("both");
    world.will_answer(Reply::Path(path));
    world.click("Page\u{2026}");
    assert!(std::fs::read(world.in_folder("both.pdf")).unwrap().starts_with(b"%PDF-"));
    assert!(world.has_containing("Wrote both.pdf"));
    let path = world.in_folder("both.html");
    world.will_answer(Reply::Path(path));
    world.click("Page\u{2026}");
    let written = std::fs::read_to_string(world.in_folder("both.html")).unwrap();
    assert!(written.contains("Routings side by side"));
}

#[test]
fn routings_are_left_out_and_taken_in() {
    let mut world = World::with_car();
    world.press_ctrl_shift(Key::D);
    world.press(Key::Enter);
    world.window.key_press_modifiers(Modifiers::SHIFT, Key::O);
    world.wait_for("Of 3 routings ");
    world.click("Compare routing A");
    world.wait_while_it_says("Of 3 routings ");
    world.click("Compare routing B");
    assert!(world.has_containing("Select two routings or more"));
}

#[test]
fn with_one_routing_there_is_nothing_to_compare() {
    let mut world = World::new();
    world.click("New bay");
    world.window.key_press_modifiers(Modifiers::SHIFT, Key::O);
    world.window.run();
    assert!(!world.has("Routings side by side"));
}
