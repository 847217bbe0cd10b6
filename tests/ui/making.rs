//! A bay from nothing: ports, hoses, bends, clamps, obstacles, by direct action.

use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, PointerButton, Pos2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use hosewright::app::actions::Tool;
use hosewright::app::files::Reply;
use hosewright::model::{Service, Shape, Via};

use crate::world::World;

impl World {
    /// A drag from one place of the screen to another.
    pub(crate) fn drag_between(&mut self, from: Pos2, to: Pos2) {
        self.window.hover_at(from);
        self.window.run();
        self.window.drag_at(from);
        self.window.run();
        for share in [0.2, 0.6, 1.0] {
            self.window.hover_at(from + share * (to - from));
            self.window.run();
        }
        self.window.drop_at(to);
        self.window.run();
    }

    /// A place of the plan view, by its middle.
    pub(crate) fn in_plan(&self, x: f32, y: f32) -> Pos2 {
        self.place_of("Plan view") + vec2(x, y)
    }

    fn click_at(&mut self, at: Pos2) {
        self.window.hover_at(at);
        self.window.drag_at(at);
        self.window.drop_at(at);
        self.window.run();
        // Far from the next click in time, so that two do not make a double one.
        self.window.run_steps(30);
    }
}

/// The master cylinder's port, in plan.
fn master(world: &World) -> String {
    format!("Port {}, plan", world.bay().port("clutch-master").expect("the port").name)
}

/// The bar of the drawing board: from an empty bay to a length sheet in at most twelve deliberate
/// actions (clicks, drags, typed entries). `docs/first-bay.md` counts them for the reader.
#[test]
fn from_an_empty_bay_to_a_length_sheet_in_ten_actions() {
    let mut world = World::new();
    world.press_ctrl(Key::N);
    let mut actions = 0;
    let mut act = |world: &mut World, act: &dyn Fn(&mut World)| {
        act(world);
        actions += 1;
    };
    act(&mut world, &|w| w.press(Key::P));
    act(&mut world, &|w| w.drag_between(w.in_plan(-180.0, 60.0), w.in_plan(-120.0, 60.0)));
    act(&mut world, &|w| w.drag_between(w.in_plan(180.0, -60.0), w.in_plan(120.0, -60.0)));
    assert_eq!(world.bay().ports.len(), 2);
    assert!(world.bay().ports[0].toward.x > 0.9 && world.bay().ports[1].toward.x < -0.9);
    act(&mut world, &|w| w.press(Key::H));
    act(&mut world, &|w| {
        let (a, b) = (w.place_of("Port Port 1, plan"), w.place_of("Port Port 2, plan"));
        w.drag_between(a, b);
    });
    assert_eq!(world.bay().routings[0].runs.len(), 1);
    assert_eq!(world.app().tool(), Tool::Select);
    for by in [vec2(0.0, 40.0), vec2(0.0, -40.0)] {
        act(&mut world, &|w| {
            let middle = w.place_of("Hose Hose 1, plan");
            w.drag_between(middle, middle + by);
        });
    }
    assert_eq!(world.bay().routings[0].runs[0].via.len(), 2, "two bends");
    act(&mut world, &|w| w.press(Key::K));
    act(&mut world, &|w| w.drag_between(w.in_plan(-60.0, -90.0), w.in_plan(60.0, -60.0)));
    assert_eq!(world.bay().obstacles.len(), 1, "a minimum clearance");
    let sheet = world.in_folder("sheet.html");
    world.will_answer(Reply::Path(sheet.clone()));
    act(&mut world, &|w| w.press_ctrl(Key::P));
    let text = std::fs::read_to_string(sheet).expect("the sheet is written");
    assert!(text.contains("Hose 1"));
    assert!(actions <= 12, "{actions} actions");
    assert_eq!(actions, 10, "docs/first-bay.md says so");
}

#[test]
fn a_drag_that_is_over_within_one_frame_is_still_a_drag() {
    let mut world = World::with_car();
    let port = world.bay().ports.iter().find(|p| p.id == "clutch-slave").unwrap().clone();
    let from = world.place_of(&format!("Port {}, plan", port.name));
    let to = from + vec2(-30.0, -40.0);
    let button = |pos, pressed| Event::PointerButton {
        pos,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    world.window.event(Event::PointerMoved(from));
    world.window.event(button(from, true));
    for share in [0.3, 0.8, 1.0] {
        world.window.event(Event::PointerMoved(from + share * (to - from)));
    }
    world.window.event(button(to, false));
    world.window.run();
    let moved = world.bay().port("clutch-slave").unwrap().at;
    assert!(moved.x < port.at.x && moved.y > port.at.y, "{} {moved}", port.at);
    assert_eq!(world.app().document().unwrap().history().depth(), 1);
}

#[test]
fn several_things_selected_by_a_rectangle_move_together() {
    let mut world = World::with_car();
    world.drag_between(world.in_plan(-170.0, -40.0), world.in_plan(170.0, 140.0));
    let selected = world.app().selected_things().len();
    assert!(selected > 1, "{selected}");
    world.press(Key::ArrowRight);
    let history = world.app().document().unwrap().history();
    assert_eq!((history.depth(), history.undo_label()), (1, Some("Move several things")));
    world.press(Key::Delete);
    assert!(world.app().selected_things().is_empty());
    world.press_ctrl(Key::Z);
    world.press_ctrl(Key::Z);
    assert!(!world.app().document().unwrap().is_changed());
}

#[test]
fn a_click_with_the_clamp_puts_one_on_the_hose() {
    let mut world = World::with_car();
    let before = world.run("Filter to fuel rail").via.len();
    world.press(Key::C);
    let at = world.place_of("Hose Filter to fuel rail, plan");
    world.click_at(at);
    let run = world.run("Filter to fuel rail");
    assert_eq!(run.via.len(), before + 1);
    assert!(run.via.iter().any(|step| matches!(step, Via::Clamp(_))));
    assert_eq!(world.app().document().unwrap().history().undo_label(), Some("Add clamp"));
}

#[test]
fn the_mark_of_a_finding_is_not_in_the_way_of_a_clamp() {
    let mut world = World::with_car();
    let count = |world: &World| {
        let runs = &world.bay().routings[0].runs;
        runs.iter().flat_map(|run| &run.via).filter(|via| matches!(via, Via::Clamp(_))).count()
    };
    let before = count(&world);
    // A fault on a hose, where it is marked in plan.
    let buttons = world.window.query_all_by_role(Role::Button);
    let mark = buttons
        .filter(|node| {
            let label = node.accesskit_node().label().unwrap_or_default();
            label.starts_with("fault: ") && label.ends_with(", plan")
        })
        .map(|node| node.rect().center())
        .next()
        .expect("a fault is marked in plan");
    world.press(Key::C);
    world.click_at(mark);
    assert_eq!(count(&world), before + 1);
    assert_eq!(world.app().document().unwrap().history().undo_label(), Some("Add clamp"));
}

#[test]
fn a_new_hose_carries_nothing_until_that_is_said_or_taken_from_another() {
    let mut world = World::with_car();
    let count = world.bay().routings[0].runs.len();
    let ends = [0, 1].map(|k| world.bay().routings[0].runs[k].from.port.clone());
    let names = ends.map(|id| world.bay().port(&id).unwrap().name.clone());
    world.press(Key::H);
    let [a, b] = names.map(|name| world.place_of(&format!("Port {name}, plan")));
    world.drag_between(a, b);
    let routing = &world.bay().routings[0];
    assert_eq!(routing.runs.len(), count + 1);
    let (run, first) = (routing.runs.last().unwrap(), routing.runs[0].clone());
    assert_eq!(run.service, Service::default());
    assert_ne!(first.service, Service::default());
    world.press_button("Edit hose");
    world.press_button("Service conditions");
    world.press_button(&format!("As {}", first.shown_name()));
    let run = world.bay().routings[0].runs.last().unwrap();
    assert_eq!(run.service, first.service);
    assert!(!world.has(&format!("As {}", first.shown_name())));
    assert_eq!(
        world.app().document().unwrap().history().undo_label(),
        Some("Copy service conditions")
    );
}

#[test]
fn a_cylinder_is_drawn_along_its_axis() {
    let mut world = World::new();
    world.press_ctrl(Key::N);
    world.press(Key::K);
    world.click("Cylinder");
    world.drag_between(world.in_plan(-80.0, 20.0), world.in_plan(90.0, 20.0));
    assert!(matches!(world.bay().obstacles[0].shape, Shape::Cylinder { .. }));
    assert_eq!(world.app().tool(), Tool::Select);
}

#[test]
fn a_number_typed_in_a_drag_fixes_that_coordinate() {
    let mut world = World::with_car();
    let name = world.bay().port("clutch-slave").unwrap().name.clone();
    world.take_and_move(&format!("Port {name}, plan"), vec2(-30.0, -40.0));
    for text in ["1", "2", "0", "m", "m"] {
        world.window.event(Event::Text(text.into()));
    }
    world.window.run();
    world.press(Key::Tab);
    world.window.event(Event::Text("4 1/2".into()));
    world.window.run();
    world.press(Key::Enter);
    let at = world.bay().port("clutch-slave").unwrap().at;
    assert!((at.x - 120.0).abs() < 1e-9 && (at.y - 4.5 * 25.4).abs() < 1e-9, "{at}");
    assert_eq!(world.app().document().unwrap().history().depth(), 1);
}

#[test]
fn a_hose_is_clicked_from_port_over_corners_to_port() {
    let mut world = World::new();
    world.press_ctrl(Key::N);
    world.press(Key::P);
    world.click_at(world.in_plan(-150.0, 0.0));
    world.click_at(world.in_plan(150.0, 30.0));
    world.press(Key::H);
    world.click_at(world.place_of("Port Port 1, plan"));
    world.click_at(world.in_plan(-20.0, 60.0));
    world.click_at(world.in_plan(40.0, -60.0));
    world.click_at(world.place_of("Port Port 2, plan"));
    let run = &world.bay().routings[0].runs[0];
    assert_eq!(run.via.len(), 2);
    assert_eq!((run.from.port.as_str(), run.to.port.as_str()), ("port-1", "port-2"));
}

#[test]
fn the_menu_of_a_thing_offers_what_fits_it() {
    let mut world = World::with_car();
    let at = world.place_of(&master(&world));
    let button = |pressed| Event::PointerButton {
        pos: at,
        button: PointerButton::Secondary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    world.window.hover_at(at);
    world.window.event(button(true));
    world.window.event(button(false));
    world.window.run();
    assert!(world.has("Draw a hose from here"));
    world.click("Delete, with its hoses");
    assert!(world.bay().port("clutch-master").is_none());
    assert_eq!(world.app().document().unwrap().history().undo_label(), Some("Delete port"));
}

#[test]
fn a_name_is_typed_in_place() {
    let mut world = World::with_car();
    world.click(&master(&world));
    world.press(Key::F2);
    // The old name is selected: what is typed takes its place.
    world.window.event(Event::Text("Master".into()));
    world.window.run();
    world.press(Key::Enter);
    assert_eq!(world.bay().port("clutch-master").unwrap().name, "Master");
}

#[test]
fn two_ports_and_an_obstacle_go_on_a_new_group_that_pivots() {
    let mut world = World::with_car();
    world.click(&master(&world));
    world.press(Key::B);
    let group = world.bay().port("clutch-master").unwrap().group.clone().expect("a group");
    assert_eq!(world.bay().group(&group).unwrap().moves.len(), 1);
    assert_eq!(world.app().document().unwrap().history().depth(), 1, "one step");
    world.press_ctrl(Key::Z);
    assert!(!world.app().document().unwrap().is_changed());
}

#[test]
fn what_is_copied_is_put_in_again_beside_it() {
    let mut world = World::with_car();
    let before = world.bay().ports.len();
    world.click(&master(&world));
    world.window.event(Event::Copy);
    world.window.run();
    for count in 1..=2 {
        world.window.event(Event::Paste(String::new()));
        world.window.run();
        assert_eq!(world.bay().ports.len(), before + count);
    }
    assert_eq!(world.app().document().unwrap().history().undo_label(), Some("Copy port"));
}
