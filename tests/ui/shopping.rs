//! The shopping list and the cut list in the window.

use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use hosewright::app::files::Reply;

use crate::world::World;

/// With the panel open and the plan worked out.
fn opened() -> World {
    let mut world = World::with_car();
    world.window.key_press_modifiers(Modifiers::SHIFT, Key::B);
    world.window.run();
    world.wait_for("To buy: ");
    world
}

fn type_into(world: &mut World, field: &str, text: &str) {
    world.window.get_by_role_and_label(Role::TextInput, field).focus();
    world.window.run();
    world.window.key_press_modifiers(Modifiers::COMMAND, Key::A);
    world.window.get_by_role_and_label(Role::TextInput, field).type_text(text);
    world.window.run();
    world.press(Key::Enter);
    world.window.run();
}

#[test]
fn the_panel_lists_what_to_buy_and_draws_what_to_cut() {
    let mut world = opened();
    assert!(world.has_containing("whose price is unknown and not in it"), "the clamps have none");
    assert!(world.has_containing("Proven: no cut list costs less"));
    assert!(world.has_containing("Every hose once more"));
    // Drawn, and told in words.
    let drawn = world.window.get_all_by_role(Role::Image);
    let told: Vec<String> = drawn.filter_map(|node| node.accesskit_node().label()).collect();
    assert!(told.iter().any(|told| told.starts_with("Cut from ")), "{told:?}");
    world.click("Close panel");
    assert!(!world.has_containing("To buy: "));
}

#[test]
fn the_menu_and_the_finder_lead_there() {
    let mut world = World::with_car();
    for word in ["buy", "shop", "order", "cut list", "price"] {
        world.press_ctrl(Key::K);
        world.window.get_by_role_and_label(Role::TextInput, "Find").type_text(word);
        world.window.run();
        assert!(world.has_containing("Shopping list and cut list"), "{word}");
        world.press(Key::Escape);
    }
    world.click("File");
    world.window.get_by_label_contains("Shopping list and cut list").click();
    world.window.run();
    world.wait_for("To buy: ");
}

#[test]
fn kerf_and_trim_are_typed_in_any_unit_and_a_wrong_one_says_why() {
    let mut world = opened();
    type_into(&mut world, "Kerf", "1.5 mm");
    world.wait_for("Kerf 1/16 in per cut");
    type_into(&mut world, "Trim", "1 cm");
    world.wait_for("trim 3/8 in per piece");
    type_into(&mut world, "Kerf", "wide");
    assert!(world.has_containing("Kerf: "), "the reason stands beside");
    assert!(world.has_containing("Kerf 1/16 in per cut"), "the cut list stays as it was");
}

#[test]
fn the_list_is_written_for_ordering() {
    let mut world = opened();
    let path = world.in_folder("order");
    world.will_answer(Reply::Path(path));
    world.click("List as CSV\u{2026}");
    let written = std::fs::read_to_string(world.in_folder("order.csv")).unwrap();
    assert!(written.starts_with("routing,kind,id,name,"));
    assert!(written.contains("\r\n") && written.contains("quill-ptfe"));
    assert!(world.has_containing("Wrote order.csv"));
}

#[test]
fn it_follows_the_routing_in_view_and_gives_way_to_the_comparison() {
    let mut world = opened();
    assert!(world.has_containing("Of the routing in view: "));
    world.press(Key::O);
    world.wait_while_it_says("Of the bay as it was");
    assert!(world.has_containing("To buy: "));
    world.window.key_press_modifiers(Modifiers::SHIFT, Key::O);
    world.window.run();
    assert!(world.has("Routings side by side"));
    assert!(!world.has("Shopping and cutting"));
}
