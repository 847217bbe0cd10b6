//! Comfort: settings, size of text, the finder, keys, routings, and names for everything.

use std::collections::BTreeSet;

use eframe::egui::accesskit::{Role, Toggled};
use eframe::egui::{Key, Theme, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use hosewright::app::files::Reply;
use hosewright::app::settings::{Look, Store};
use hosewright::units::LengthUnit;

use crate::world::World;

const PORT: &str = "Port Clutch slave cylinder, inlet, plan";

const ROLES: [Role; 14] = [
    Role::Button,
    Role::CheckBox,
    Role::RadioButton,
    Role::ComboBox,
    Role::TextInput,
    Role::MultilineTextInput,
    Role::SpinButton,
    Role::Slider,
    Role::Link,
    Role::MenuItem,
    Role::ListBoxOption,
    Role::Switch,
    Role::Tab,
    Role::Canvas,
];

/// Every control has a name; and one that is pressed or typed into teaches what it does.
fn check_names(world: &World, place: &str, untaught: &mut BTreeSet<String>) {
    let mut seen = 0;
    for role in ROLES {
        for node in world.window.query_all_by_role(role) {
            let node = node.accesskit_node();
            let name = node.label().or_else(|| node.value()).unwrap_or_default();
            assert!(!name.trim().is_empty(), "{place}: a {role:?} without a name");
            seen += 1;
            // A thing of the drawing is shown by the drawing; a canvas holds them.
            let drawn = [", plan", ", side", ", front"].iter().any(|view| name.ends_with(view));
            // The strip says itself what is under the pointer: a tooltip would lie over it.
            let drawn = drawn || role == Role::Canvas || name.starts_with("Bench strip, ");
            if node.data().description().is_none_or(str::is_empty) && !drawn {
                untaught.insert(format!("{place}: {role:?} {name}"));
            }
        }
    }
    assert!(seen > 2, "{place}: the tree was walked");
}

#[test]
fn every_control_has_a_name_and_a_tooltip() {
    let mut untaught = BTreeSet::new();
    check_names(&World::new(), "no bay", &mut untaught);
    let mut world = World::with_car();
    check_names(&world, "the window", &mut untaught);
    for menu in ["File", "Edit", "Add", "View", "Help", "Routings menu"] {
        world.click(menu);
        check_names(&world, menu, &mut untaught);
        world.press(Key::Escape);
    }
    for key in [Key::F1, Key::K] {
        if key == Key::K {
            world.press_ctrl(key);
        } else {
            world.press(key);
        }
        check_names(&world, "a page over the window", &mut untaught);
        world.press(Key::Escape);
    }
    world.drag(PORT, vec2(0.0, -30.0));
    world.press_ctrl(Key::N);
    check_names(&world, "the question about unsaved work", &mut untaught);
    world.press(Key::Escape);
    world.will_answer(Reply::NoService);
    world.press_ctrl_shift(Key::S);
    check_names(&world, "the path box", &mut untaught);
    world.press(Key::Escape);
    world.window.run();
    world.settle();
    let world = world.crash_and_open(Some("car.bay.json"));
    check_names(&world, "recovery", &mut untaught);
    assert!(untaught.is_empty(), "no tooltip on {untaught:#?}");
}

#[test]
fn the_finder_lists_does_and_jumps() {
    let mut world = World::with_car();
    world.press_ctrl(Key::K);
    world.window.get_by_label("Find").type_text("gearbox to oil");
    world.window.run();
    assert!(world.has("Gearbox to oil cooler, hose"));
    world.press(Key::Enter);
    assert!(!world.has("Find"), "it closes");
    let run = world.run("Gearbox to oil cooler").id.clone();
    assert_eq!(world.app().selected_run(), Some(run.as_str()));

    world.press_ctrl(Key::K);
    world.window.get_by_label("Find").type_text("duprout");
    world.window.run();
    let count = world.bay().routings.len();
    world.press(Key::Enter);
    assert_eq!(world.bay().routings.len(), count + 1);

    world.press_ctrl(Key::K);
    world.window.get_by_label("Find").type_text("dark");
    world.window.run();
    assert!(world.has("Colours: dark, View"));
    world.press(Key::Enter);
    assert_eq!(world.app().settings().look, Look::Dark);
}

#[test]
fn the_finder_says_what_cannot_be_done_and_does_not_do_it() {
    let mut world = World::new();
    world.press_ctrl(Key::K);
    world.window.get_by_label("Find").type_text("undo");
    world.window.run();
    assert!(world.has("Undo, Edit"));
    world.press(Key::Enter);
    assert!(world.has("Find"), "it stays open");
    world.press(Key::Escape);
    assert!(!world.has("Find"));
    world.press(Key::F1);
    assert!(world.has("While you drag"), "keys work again");
}

#[test]
fn arrows_walk_the_list() {
    let mut world = World::with_car();
    world.press_ctrl(Key::K);
    world.window.get_by_label("Find").type_text("routing");
    world.window.run();
    let selected = |world: &World| {
        let mut lines = world.window.query_all_by_role(Role::ListBoxOption);
        lines.position(|line| line.accesskit_node().toggled() == Some(Toggled::True))
    };
    assert_eq!(selected(&world), Some(0));
    world.press(Key::ArrowDown);
    assert_eq!(selected(&world), Some(1));
    world.press(Key::ArrowUp);
    world.press(Key::ArrowUp);
    assert!(selected(&world).unwrap() > 1, "round to the last");
}

#[test]
fn the_list_of_keys_has_every_key_of_the_table() {
    use hosewright::app::actions::TABLE;
    let mut world = World::with(None, vec2(1366.0, 768.0), Theme::Dark);
    world.press(Key::F1);
    for spec in TABLE.iter().filter(|spec| !spec.keys.is_empty()) {
        assert!(world.has(spec.text.trim_end_matches('\u{2026}')), "{}", spec.text);
    }
    assert!(world.has("While you drag"));
    world.press(Key::Escape);
    assert!(!world.has("While you drag"));
}

#[test]
fn every_request_is_in_a_menu() {
    use hosewright::app::actions::{Ask, Spec, TABLE};
    use hosewright::app::groups::Group;
    let mut world = World::with_car();
    for (group, title) in Group::ALL {
        world.click(if group == Group::Routings { "Routings menu" } else { title });
        // What is in a menu of its own is found there.
        let has = |world: &World, spec: &Spec| world.has_containing(spec.text);
        let requests = || group.requests().filter(|spec| spec.ask != Ask::Escape);
        let further: Vec<&Spec> = requests().filter(|spec| !has(&world, spec)).collect();
        if !further.is_empty() {
            world.click("Which views");
        }
        for spec in further {
            assert!(has(&world, spec), "{} in {title}", spec.text);
        }
        world.press(Key::Escape);
    }
    assert!(TABLE.len() > 20);
}

#[test]
fn the_size_of_text_is_stepped_kept_and_put_back() {
    let mut world = World::with_car();
    world.press_ctrl(Key::Plus);
    world.press_ctrl(Key::Plus);
    world.press_ctrl(Key::Minus);
    assert_eq!(world.app().settings().text_percent, 110);
    assert!((world.window.ctx.zoom_factor() - 1.1).abs() < 1e-6);
    let kept = Store::stored_in(world.in_folder("settings.json")).settings;
    assert_eq!(kept.text_percent, 110);
    for _ in 0..20 {
        world.press_ctrl(Key::Minus);
    }
    assert_eq!(world.app().settings().text_percent, 80);
    world.press_ctrl(Key::Num0);
    assert_eq!(world.app().settings().text_percent, 100);
}

#[test]
fn look_and_contrast_are_kept() {
    let mut world = World::with_car();
    world.click("View");
    world.click("Dark");
    world.click("View");
    world.click("High contrast");
    let kept = Store::stored_in(world.in_folder("settings.json")).settings;
    assert_eq!((kept.look, kept.high_contrast), (Look::Dark, true));
}

#[test]
fn the_window_works_with_large_text_and_on_both_screens() {
    for size in [vec2(1366.0, 768.0), vec2(2560.0, 1440.0)] {
        for steps in [0, 5, 10] {
            let mut world =
                World::with(Some("demo_projects/faults-on-purpose.bay.json"), size, Theme::Light);
            for _ in 0..steps {
                world.press_ctrl(Key::Plus);
            }
            let room = world.window.ctx.content_rect();
            for label in ["File", "View", "Help", "Routings menu", "mm", "Length sheet\u{2026}"] {
                let rect = world.window.get_by_label(label).rect();
                assert!(
                    room.expand(1.0).contains_rect(rect),
                    "{label} at {steps} on {size}: {rect}"
                );
            }
        }
    }
}

#[test]
fn a_routing_is_copied_named_moved_deleted_and_all_is_undone() {
    let mut world = World::with_car();
    let before = world.bay().clone();
    world.press_ctrl_shift(Key::D);
    assert_eq!((world.bay().routings.len(), world.app().routing()), (3, 1));
    // Its name is typed at once.
    world.window.get_by_label("Name of the routing").type_text("Round the back");
    world.window.run();
    world.press(Key::Enter);
    assert_eq!(world.bay().routings[1].name, "Round the back");
    assert!(world.has_containing("B  Round the"));

    world.click("Routings menu");
    world.click("Routing later");
    assert_eq!(world.bay().routings[2].name, "Round the back");
    assert_eq!(world.app().routing(), 2, "it stays in view");
    world.click("Routings menu");
    world.click("Delete routing");
    assert_eq!(world.bay().routings.len(), 2);
    for _ in 0..4 {
        world.press_ctrl(Key::Z);
    }
    assert_eq!(*world.bay(), before);
    assert_eq!(world.app().document().unwrap().history().depth(), 0);
}

#[test]
fn the_last_routing_stays() {
    let mut world = World::new();
    world.click("New bay");
    world.click("Routings menu");
    world.click("Delete routing");
    assert_eq!(world.bay().routings.len(), 1);
}

#[test]
fn esc_keeps_the_old_name() {
    let mut world = World::with_car();
    let before = world.bay().clone();
    world.click("Routings menu");
    world.click("Rename routing\u{2026}");
    world.window.get_by_label("Name of the routing").type_text("zzz");
    world.window.run();
    world.press(Key::Escape);
    assert!(!world.has("Name of the routing"));
    assert_eq!(*world.bay(), before);
}

/// Of the units beside millimetres nothing is left, wherever the window looks; the cut length alone stands in
/// both.
#[test]
fn a_bay_in_inches_shows_no_other_unit() {
    let mut world = World::with_car();
    let no_metric = |world: &World, what: &str| {
        for unit in ["m/s", "L/min", "°C", " bar", " kg", "metre", "mm²", " mm "] {
            assert!(!world.has_containing(unit), "{unit} in {what}");
        }
    };
    for group in ["Make-up", "Shape and clearance", "Flow"] {
        world.press_button(group);
    }
    for hose in ["Gearbox to oil cooler", "Feed pipe to filter"] {
        world.click(&format!("Hose {hose}, plan"));
        assert!(world.has_containing("ft/s") && world.has_containing("psi"), "{hose}");
        no_metric(&world, hose);
    }
    world.window.key_press_modifiers(eframe::egui::Modifiers::SHIFT, Key::B);
    world.wait_for("Shopping list");
    assert!(world.has_containing("by the foot") && world.has_containing("/ft"));
    no_metric(&world, "the shopping list");
}

#[test]
fn a_new_bay_starts_in_the_units_last_selected() {
    let mut world = World::new();
    world.click("New bay");
    assert_eq!(world.bay().show_units, LengthUnit::Mm);
    world.click("inch");
    world.press_ctrl(Key::N);
    world.click("Discard");
    assert_eq!(world.bay().show_units, LengthUnit::Inch);
    let kept = Store::stored_in(world.in_folder("settings.json")).settings;
    assert_eq!(kept.units, LengthUnit::Inch);
}
