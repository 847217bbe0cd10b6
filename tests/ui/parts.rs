//! The parts library in the window, and its parts at a hose.

use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use hosewright::app::files::Reply;
use hosewright::clock;
use hosewright::document::file::load_parts;
use hosewright::model::Stock;

use crate::world::World;

/// With the panel open.
fn opened() -> World {
    let mut world = World::with_car();
    world.press_shift(Key::P);
    assert!(world.has("Parts library"));
    world
}

impl World {
    fn type_part(&mut self, field: &str, text: &str) {
        self.window.get_by_role_and_label(Role::TextInput, field).scroll_to_me();
        self.window.run();
        self.window.get_by_role_and_label(Role::TextInput, field).focus();
        self.window.run();
        self.window.key_press_modifiers(Modifiers::COMMAND, Key::A);
        self.window.get_by_role_and_label(Role::TextInput, field).type_text(text);
        self.window.run();
        self.press(Key::Enter);
        self.window.run();
    }

    /// As its file has it.
    fn library(&self) -> Stock {
        load_parts(&self.in_folder("parts.json")).unwrap().stock
    }

    fn is_enabled(&self, label: &str) -> bool {
        !self.window.get_by_label(label).accesskit_node().is_disabled()
    }

    /// Adds a hose in one size.
    fn add_hose(&mut self) {
        self.press_shift(Key::P);
        self.click("Add a hose");
        assert!(!self.is_enabled("Save"), "nothing is typed yet");
        assert!(self.has_containing("Name: missing") && self.has_containing("OD: missing"));
        self.type_part("Name", "Quill feather");
        self.type_part("OD of size 1", "1/2");
        self.type_part("Bore of size 1", "0.55");
        self.type_part("Bend radius of size 1", "4");
        self.type_part("Rating of size 1", "1000");
        assert!(self.has_containing("Bore: expected a bore smaller than the OD"));
        assert!(!self.is_enabled("Save"));
        self.type_part("Bore of size 1", "5/16");
        self.type_part("Price of size 1", "3");
        self.press_button("Save");
        self.window.run();
    }

    /// Opens the fields of the first hose of the car.
    fn edit_first_hose(&mut self) -> String {
        let name = self.bay().routings[self.app().routing()].runs[0].name.clone();
        self.window.get_by_label_contains(&format!("{name}, \u{2212}")).click();
        self.window.run();
        self.press_button("Edit hose");
        name
    }
}

#[test]
fn a_hose_is_added_used_and_taken_back_in_one_step() {
    let mut world = World::with_car();
    world.add_hose();
    let hose = world.library().hoses[0].clone();
    assert_eq!((hose.id.as_str(), hose.name.as_str()), ("quill-feather", "Quill feather"));
    let size = &hose.sizes[0];
    assert_eq!((size.dash, size.outside_mm, size.bend_radius_mm), (6, Some(12.7), 101.6));
    assert!((size.max_pressure_bar.unwrap() - 68.947_572_9).abs() < 1e-6, "typed in psi");
    assert!((size.price_per_m.unwrap() - 3.0 / 0.3048).abs() < 1e-9, "typed by the foot");
    assert!(world.has("Quill feather, hose"), "it is in the list");

    world.click("Close panel");
    let name = world.edit_first_hose();
    let before = world.bay().clone();
    world.pick("Hose", "Quill feather, parts library");
    assert_eq!(world.run(&name).hose, "quill-feather");
    assert_eq!(world.bay().stock.hoses.last(), Some(&hose), "the bay has its own copy");
    let history = world.app().document().unwrap().history();
    assert_eq!((history.depth(), history.undo_label()), (1, Some("Change hose")));
    world.press_ctrl(Key::Z);
    assert_eq!(**world.app().document().unwrap().bay(), before);
}

#[test]
fn a_change_in_the_library_shows_at_the_hose_and_goes_either_way() {
    let mut world = World::with_car();
    world.add_hose();
    world.click("Close panel");
    world.edit_first_hose();
    world.pick("Hose", "Quill feather, parts library");
    assert!(!world.has("Other figures in your parts library"));

    world.press_shift(Key::P);
    world.click("Quill feather, hose");
    assert!(world.has("This bay has the same figures"));
    world.type_part("OD of size 1", "9/16");
    world.press_button("Save");
    assert!(world.has("other figures in this bay"));
    world.click("Close panel");
    world.press_button("Other figures in your parts library");
    assert!(world.has("This bay has other figures"));
    assert!(world.has("\u{2212}6, OD: 9/16 in here, 1/2 in in the bay"));
    world.click("Put into this bay");
    assert_eq!(
        world.bay().stock.hoses.last().unwrap().sizes[0].outside_mm,
        Some(9.0 / 16.0 * 25.4)
    );
    assert!(world.has("This bay has the same figures"));
    // The other way, with what the library had before put back.
    let document = world.app().document().unwrap();
    assert_eq!(document.history().undo_label(), Some("Put part into the bay"));
    world.click("All parts");
    let views = world.app().board().unwrap();
    world.window.drag_at(views.center());
    world.window.drop_at(views.center());
    world.window.run();
    world.press_ctrl(Key::Z);
    assert!(world.has("other figures in this bay"));
    world.click("Quill feather, hose");
    world.click("Keep in library");
    assert_eq!(world.library().hoses[0].sizes[0].outside_mm, Some(12.7));
    world.click("Put back");
    assert_eq!(world.library().hoses[0].sizes[0].outside_mm, Some(9.0 / 16.0 * 25.4));
}

#[test]
fn a_measured_end_says_when_on_card_and_sheet() {
    let mut world = opened();
    world.click("End fittings");
    world.click("Add an end fitting");
    world.type_part("Name", "Bench end");
    let sketch = world.window.get_all_by_role(Role::Image);
    let said: Vec<String> = sketch.filter_map(|node| node.accesskit_node().label()).collect();
    assert!(said.iter().any(|said| said.starts_with("Sketch of the end")), "{said:?}");
    let name = world.bay().routings[world.app().routing()].runs[0].name.clone();
    let dash = world.run(&name).dash.to_string();
    world.type_part("Dash of size 1", &dash);
    world.type_part("Along of size 1", "22.5 mm");
    world.type_part("Socket of size 1", "24 mm");
    world.pick("Figures of size 1", "measured on my ends");
    let today = clock::today().unwrap();
    world.press_button("Save");
    let end = world.library().ends[0].clone();
    assert_eq!((end.sizes[0].measured, end.sizes[0].measured_on.clone()), (Some(true), today));
    assert_eq!((end.sizes[0].along_mm, end.sizes[0].socket_mm), (22.5, 24.0));
    // Of another day, as typed.
    world.click("Bench end, end fitting");
    world.type_part("Measured on of size 1", "2026-11-19");
    world.press_button("Save");

    world.click("Close panel");
    world.edit_first_hose();
    world.press_button("End A");
    world.pick("Fitting of end A", "Bench end, parts library");
    let run = world.run(&name).clone();
    assert_eq!(run.from.end.as_deref(), Some("bench-end"));
    assert_eq!(world.bay().stock.ends.last().unwrap().sizes[0].measured_on, "2026-11-19");
    let (bay, routing) = (world.bay(), &world.bay().routings[world.app().routing()]);
    let solution = hosewright::engine::solve_routing(bay, routing);
    let solved = solution.run(0).unwrap();
    assert_eq!(solved.from.end.set_back_source().word(), "measured 2026-11-19");
}

#[test]
fn parts_are_found_copied_deleted_and_put_back() {
    let mut world = World::with_car();
    world.add_hose();
    world.click("Quill feather, hose");
    world.click("Copy");
    world.type_part("Name", "Quill feather");
    assert!(world.has_containing("a name that no other of this manufacturer has"));
    world.type_part("Name", "Goose");
    world.type_part("Manufacturer", "Shed");
    world.press_button("Save");
    assert_eq!(world.library().hoses.len(), 2);
    world.type_part("Find a part", "shed -6");
    assert!(world.has("Goose, hose") && !world.has("Quill feather, hose"));
    world.click("Goose, hose");
    world.click("Delete");
    assert_eq!(world.library().hoses.len(), 1);
    assert!(world.has("Nothing found"));
    world.click("Put back");
    assert!(world.has("Goose, hose"));
    assert_eq!(world.library().hoses.len(), 2);
}

#[test]
fn what_the_bay_alone_has_is_kept_on_one_click() {
    let mut world = opened();
    let own = world.bay().stock.hoses[0].clone();
    assert!(world.has("In this bay only"));
    world.press_button(&format!("Keep {} in the library", own.name));
    assert_eq!(world.library().hoses, std::slice::from_ref(&own));
    assert!(world.has(&format!("{}, hose", own.name)) && world.has("in this bay"));
}

#[test]
fn tables_go_out_and_in_and_nothing_where_one_line_is_wrong() {
    let mut world = World::with_car();
    world.add_hose();
    world.will_answer(Reply::Path(world.in_folder("parts")));
    world.click("Export parts\u{2026}");
    let path = world.in_folder("parts.csv");
    let table = std::fs::read_to_string(&path).unwrap();
    assert!(table.starts_with("kind,id,name,manufacturer,") && table.contains("quill-feather"));
    let before = world.library();
    std::fs::write(&path, table.replace(",12.7,", ",wide,")).unwrap();
    world.will_answer(Reply::Path(path.clone()));
    world.click("Import parts\u{2026}");
    assert!(world.has("Nothing was imported"));
    assert!(world.has_containing("line 2, column od_mm"));
    assert_eq!(world.library(), before);
    world.click("Close");
    std::fs::write(&path, table.replace(",12.7,", ",13,")).unwrap();
    world.will_answer(Reply::Path(path));
    world.click("Import parts\u{2026}");
    assert!(world.has_containing("Imported 1 hose from parts.csv"));
    assert_eq!(world.library().hoses[0].sizes[0].outside_mm, Some(13.0));
}

#[test]
fn a_library_that_cannot_be_read_is_left_alone() {
    let mut world = World::with_car();
    let path = world.in_folder("parts.json");
    std::fs::write(&path, "{ half").unwrap();
    world.press_shift(Key::P);
    assert!(world.has_containing("not JSON") && !world.has("Add a hose"));
    std::fs::write(&path, r#"{"format":"hosewright-parts","version":1}"#).unwrap();
    world.click("Read again");
    assert!(world.has("Add a hose"));
}

#[test]
fn the_menu_and_the_finder_lead_there() {
    let mut world = World::with_car();
    for word in ["parts", "catalogue", "fittings"] {
        world.press_ctrl(Key::K);
        world.window.get_by_role_and_label(Role::TextInput, "Find").type_text(word);
        world.window.run();
        assert!(world.has_containing("Parts library"), "{word}");
        world.press(Key::Escape);
    }
    world.click("File");
    world.window.get_by_label_contains("Parts library\u{2026}").click();
    world.window.run();
    assert!(world.has("Add a hose"));
    world.press_shift(Key::O);
    assert!(!world.has("Add a hose"), "it gives way to the comparison");
}
