//! Looking at a bay: selecting, routings, units, views, names.

use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use hosewright::app::canvas::camera::View;
use hosewright::units::{Length, LengthUnit};

use crate::world::World;

#[test]
fn every_hose_is_in_the_table_with_its_cut_length() {
    let world = World::with_car();
    let unit = world.bay().show_units;
    for run in &world.bay().routings[0].runs {
        let cut = Length::from_mm(world.cut_mm(&run.name)).bench(unit);
        let begins = format!("{}, \u{2212}", run.name);
        let mut lines = world.window.query_all_by_label_contains(&begins);
        assert!(
            lines.any(|line| line.accesskit_node().label().is_some_and(|l| l.contains(&cut))),
            "{}",
            run.name
        );
    }
}

#[test]
fn a_click_in_the_table_shows_the_card() {
    let mut world = World::with_car();
    let label = {
        let mut lines = world.window.query_all_by_label_contains("Oil cooler to gearbox, ");
        lines.next().unwrap().accesskit_node().label().unwrap()
    };
    world.click(&label);
    assert_eq!(world.app().selected_run(), Some("oil-back"));
    let cut = Length::from_mm(world.cut_mm("Oil cooler to gearbox"));
    assert!(world.has(&cut.bench(LengthUnit::Inch)) && world.has(&cut.bench(LengthUnit::Mm)));
}

#[test]
fn a_click_on_a_hose_in_a_view_selects_it() {
    let mut world = World::with_car();
    let at = world.place_of("Hose Oil cooler to gearbox, side");
    // Beside the named spot, on the hose itself: the drawing finds it.
    world.window.drag_at(at);
    world.window.drop_at(at);
    world.window.run();
    assert!(world.app().selected_run().is_some_and(|run| run.starts_with("oil")));
}

#[test]
fn switching_the_routing_shows_the_other_routing() {
    let mut world = World::with_car();
    let low = world.cut_mm("Filter to fuel rail");
    let other = {
        let mut buttons = world.window.query_all_by_label_contains("B  High");
        buttons.next().unwrap().accesskit_node().label().unwrap()
    };
    world.click(&other);
    assert_eq!(world.app().routing(), 1);
    assert!((world.cut_mm("Filter to fuel rail") - low).abs() > 1.0);
    assert_eq!(world.app().document().unwrap().history().depth(), 0, "looking is no change");
}

#[test]
fn switching_the_unit_is_a_change_that_can_be_undone() {
    let mut world = World::with_car();
    assert_eq!(world.bay().show_units, LengthUnit::Inch);
    let cut = Length::from_mm(world.cut_mm("Feed pipe to filter"));
    world.click("mm");
    assert_eq!(world.bay().show_units, LengthUnit::Mm);
    assert!(world.has(&cut.bench(LengthUnit::Mm)));
    assert!(world.has("cut length, rounded up to the next 1 mm"));
    world.press_ctrl(Key::Z);
    assert_eq!(world.bay().show_units, LengthUnit::Inch);
}

#[test]
fn findings_are_gone_through_by_key_and_tell_their_source() {
    let mut world = World::with_car();
    world.press(Key::N);
    assert!(world.has("shown"), "the finding looked at is marked in the card");
    // What a thread of its own tries makes a finding longer when it comes.
    world.wait_for("Tried: ");
    let before = world.window.query_all_by_label_contains("Source: ").count();
    world.window.query_all_by_label("why").next().unwrap().scroll_to_me();
    world.window.run();
    world.window.query_all_by_label("why").next().unwrap().click();
    world.window.run();
    assert_eq!(world.window.query_all_by_label_contains("Source: ").count(), before + 1);
}

#[test]
fn views_stay_in_line_until_they_are_freed() {
    let mut world = World::with_car();
    let shift = |world: &World| {
        let cameras = world.app().canvas().cameras;
        cameras.of(View::Plan).centre.x - cameras.of(View::Side).centre.x
    };
    let pan_plan = |world: &mut World| {
        let at = world.place_of("Plan view") + vec2(-150.0, 90.0);
        world.window.hover_at(at);
        let button = |pos, pressed| eframe::egui::Event::PointerButton {
            pos,
            button: eframe::egui::PointerButton::Middle,
            pressed,
            modifiers: eframe::egui::Modifiers::NONE,
        };
        world.window.event(button(at, true));
        world.window.run();
        world.window.hover_at(at + vec2(60.0, 0.0));
        world.window.run();
        world.window.event(button(at + vec2(60.0, 0.0), false));
        world.window.run();
    };
    let first = world.app().canvas().cameras.of(View::Plan).centre;
    pan_plan(&mut world);
    assert!(world.app().canvas().cameras.of(View::Plan).centre.x < first.x);
    assert!(shift(&world).abs() < 1e-9);
    world.press(Key::L);
    pan_plan(&mut world);
    assert!(shift(&world).abs() > 1.0);
    world.press(Key::F);
    assert!(shift(&world).abs() < 1e-9, "fit shows the whole bay again");
}

#[test]
fn every_input_and_every_thing_has_a_name() {
    let world = World::with_car();
    for view in ["Plan view", "Side view", "Front view"] {
        world.window.get_by_role_and_label(Role::Canvas, view);
    }
    for port in &world.bay().ports {
        for view in ["plan", "side", "front"] {
            let name = format!("Port {}, {view}", port.name);
            assert!(world.has(&name), "{name}");
        }
    }
    let unnamed = world
        .window
        .query_all_by_role(Role::Button)
        .filter(|b| b.accesskit_node().label().is_none_or(|label| label.trim().is_empty()));
    assert_eq!(unnamed.count(), 0);
}

#[test]
fn nothing_moves_when_nothing_is_asked_for() {
    let mut world = World::with_car();
    let output = world.window.output();
    let root = output.viewport_output.values().next().unwrap();
    assert_eq!(root.repaint_delay, std::time::Duration::MAX, "idle costs nothing");
    let steps = world.window.run();
    assert!(steps <= 2, "{steps}");
}

#[test]
fn every_size_and_both_looks_can_be_drawn() {
    for size in [vec2(900.0, 560.0), vec2(1366.0, 768.0), vec2(2560.0, 1440.0)] {
        for theme in [eframe::egui::Theme::Light, eframe::egui::Theme::Dark] {
            for demo in ["trials-car", "diesel-launch", "faults-on-purpose"] {
                let demo = format!("demo_projects/{demo}.bay.json");
                let mut world = World::with(Some(demo.as_str()), size, theme);
                for _ in 0..4 {
                    world.press(Key::N);
                }
                world.press(Key::O);
                assert_eq!(world.app().routing(), 1);
            }
        }
    }
}
