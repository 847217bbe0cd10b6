//! Changing figures by typing them.

use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::Queryable as _;
use hosewright::app::canvas::thing::Thing;
use hosewright::checks::check;
use hosewright::engine::leak_test::{TestState, tested};
use hosewright::engine::{solve_run, solve_whole};
use hosewright::model::{Fluid, Motion, Nature, Port, Shape, Via};

use crate::world::World;

const MASTER: &str = "clutch-master";

impl World {
    /// The text of a field.
    fn field(&self, name: &str) -> String {
        let node = self.window.get_by_role_and_label(Role::TextInput, name);
        node.value().unwrap_or_default()
    }

    fn has_field(&self, name: &str) -> bool {
        self.window.query_by_role_and_label(Role::TextInput, name).is_some()
    }

    fn enter_field(&mut self, name: &str) {
        self.window.get_by_role_and_label(Role::TextInput, name).focus();
        self.window.run();
    }

    /// Types into a field without leaving it; what was in it is marked and goes.
    fn type_into(&mut self, name: &str, text: &str) {
        let was_in_it = self.is_in_field(name);
        self.enter_field(name);
        if was_in_it {
            self.press_ctrl(Key::A);
        }
        self.window.get_by_role_and_label(Role::TextInput, name).type_text(text);
        self.window.run();
    }

    fn fill_in(&mut self, name: &str, text: &str) {
        self.type_into(name, text);
        self.press(Key::Enter);
    }

    fn empty(&mut self, name: &str) {
        self.enter_field(name);
        self.press(Key::Backspace);
        self.press(Key::Enter);
    }

    fn is_in_field(&self, name: &str) -> bool {
        self.window.get_by_role_and_label(Role::TextInput, name).is_focused()
    }

    fn depth(&self) -> usize {
        self.app().document().unwrap().history().depth()
    }

    fn undo_label(&self) -> Option<&'static str> {
        self.app().document().unwrap().history().undo_label()
    }

    /// Picks from a list.
    pub(crate) fn pick(&mut self, list: &str, words: &str) {
        self.window.get_by_role_and_label(Role::ComboBox, list).scroll_to_me();
        self.window.run();
        self.window.get_by_role_and_label(Role::ComboBox, list).click();
        self.window.run();
        // The list lies on top of everything else: it comes last.
        let items = self.window.query_all_by_role_and_label(Role::Button, words);
        items.last().expect(words).click();
        self.window.run();
    }

    pub(crate) fn press_button(&mut self, label: &str) {
        self.window.get_by_label(label).scroll_to_me();
        self.window.run();
        self.click(label);
    }

    fn choose_from_bay(&mut self, section: &str, entry: &str) {
        self.press_button("Bay");
        self.press_button(section);
        self.press_button(entry);
    }
}

fn master(world: &World) -> Port {
    world.bay().port(MASTER).unwrap().clone()
}

/// Equal, but for the last digit of the arithmetic.
fn assert_near(value: f64, wanted: f64) {
    assert!((value - wanted).abs() < 1e-9, "{value}, not {wanted}");
}

fn with_port(id: &str) -> World {
    let mut world = World::with_car();
    let name = world.bay().port(id).unwrap().name.clone();
    world.click(&format!("Port {name}, plan"));
    assert!(world.has_field("Seat X"));
    world
}

/// Selected in the list: in a view another hose may lie over its middle.
fn with_hose(name: &str) -> World {
    let mut world = World::with_car();
    let row = format!("{name}, \u{2212}");
    world.window.get_by_label_contains(&row).click();
    world.window.run();
    assert_eq!(world.app().selected_run(), Some(world.run(name).id.as_str()));
    world.press_button("Edit hose");
    assert!(world.has_field("Slack"));
    world
}

#[test]
fn a_sum_typed_into_a_coordinate_moves_the_port() {
    let mut world = with_port(MASTER);
    let before = master(&world).at;
    world.fill_in("Seat X", "12 3/8 + 5mm");
    let at = master(&world).at;
    assert!((at.x - (12.375 * 25.4 + 5.0)).abs() < 1e-9, "{at}");
    assert_eq!((at.y, at.z), (before.y, before.z));
    assert_eq!((world.depth(), world.undo_label()), (1, Some("Move port")));
    assert!(!world.is_in_field("Seat X"), "Enter leaves the field");
    world.press_ctrl(Key::Z);
    assert_eq!(master(&world).at, before);
}

#[test]
fn a_wrong_entry_changes_nothing_and_says_why_until_it_is_mended_or_put_back() {
    let mut world = with_port(MASTER);
    let (bay, shown) = (world.bay().clone(), world.field("Seat X"));
    world.fill_in("Seat X", "12 3/8 + 5 parsecs");
    let why = "X: this is no unit of length, at character 12";
    assert!(world.has_containing(why));
    assert_eq!(world.field("Seat X"), "12 3/8 + 5 parsecs", "it stays to be fixed");
    assert!(world.is_in_field("Seat X"));
    assert_eq!((world.bay(), world.depth()), (&bay, 0));

    // Left as it is, it still says so.
    world.press(Key::Tab);
    assert!(world.has_containing(why));
    assert_eq!((world.bay(), world.depth()), (&bay, 0));

    world.enter_field("Seat X");
    world.press(Key::Escape);
    assert!(!world.has_containing(why));
    assert_eq!(world.field("Seat X"), shown);
    assert_eq!(world.app().selected_run(), Some("clutch"), "Escape only left the field");
    assert!(world.has_field("Seat X"));

    world.fill_in("Seat X", "1,000");
    assert!(world.has_containing("this can be read as one thousand"));
    world.fill_in("Seat X", "1");
    assert!(!world.has_containing("this can be read as one thousand"));
    assert_eq!(master(&world).at.x, 25.4);
}

#[test]
fn escape_puts_back_what_was_there() {
    let mut world = with_port(MASTER);
    let shown = world.field("Seat Y");
    world.type_into("Seat Y", "99");
    world.press(Key::Escape);
    assert_eq!(world.field("Seat Y"), shown);
    assert_eq!(world.depth(), 0);
}

#[test]
fn what_is_not_changed_sends_no_command() {
    let mut world = with_port(MASTER);
    for field in ["Name", "Seat X", "Seat Z", "Points Z", "Size", "Id"] {
        world.enter_field(field);
        let typed = world.field(field);
        world.press(Key::Enter);
        assert_eq!(world.depth(), 0, "{field}: entered and left");
        world.fill_in(field, &typed);
        assert_eq!(world.depth(), 0, "{field}: typed again");
    }
    world.fill_in("Points Z", "2/2");
    assert_eq!(world.depth(), 0, "the same in other words");
}

#[test]
fn a_rounded_figure_says_so_and_is_whole_when_it_is_changed() {
    let mut world = with_port(MASTER);
    // −712 mm is no sixteenth of an inch.
    assert_eq!(world.field("Seat X"), "\u{2248}\u{2009}\u{2212}28 1/16");
    world.enter_field("Seat X");
    assert_eq!(world.field("Seat X"), "\u{2212}712 mm");
    world.press(Key::Enter);
    assert_eq!(world.depth(), 0);
    world.fill_in("Seat X", "-28");
    assert_eq!(world.field("Seat X"), "\u{2212}28");
}

#[test]
fn tab_goes_from_top_to_bottom() {
    let mut world = with_port(MASTER);
    world.enter_field("Name");
    for next in ["Seat X", "Seat Y", "Seat Z"] {
        world.press(Key::Tab);
        assert!(world.is_in_field(next), "{next}");
    }
    for way in ["+X", "\u{2212}X", "+Y", "\u{2212}Y", "+Z", "\u{2212}Z"] {
        world.press(Key::Tab);
        let name = format!("Points {way}");
        assert!(world.window.get_by_label(&name).is_focused(), "{name}");
    }
    for next in ["Points X", "Points Y", "Points Z", "Size"] {
        world.press(Key::Tab);
        assert!(world.is_in_field(next), "{next}");
    }
    for list in ["Moves with", "Screwed into"] {
        world.press(Key::Tab);
        let list = world.window.get_by_role_and_label(Role::ComboBox, list);
        assert!(list.is_focused());
    }
    world.press(Key::Tab);
    assert!(world.is_in_field("Id"));
    assert_eq!(world.depth(), 0);
}

#[test]
fn leaving_a_field_by_tab_or_by_pressing_elsewhere_takes_what_was_typed() {
    let mut world = with_port(MASTER);
    world.type_into("Seat X", "-29");
    world.press(Key::Tab);
    assert_near(master(&world).at.x, -29.0 * 25.4);
    world.type_into("Seat Z", "28");
    let hose = world.place_of("Port Fuel rail, front, plan");
    world.window.drag_at(hose);
    world.window.run();
    assert_near(master(&world).at.z, 28.0 * 25.4);
    world.window.drop_at(hose);
    world.window.run();
    assert_eq!(world.depth(), 2);
    let selected = world.app().selected_things();
    assert_eq!(selected, [Thing::Port("rail-in".into())], "and what was pressed is selected");
}

#[test]
fn a_click_marks_all_of_a_field() {
    let mut world = with_port(MASTER);
    let field = world.window.get_by_role_and_label(Role::TextInput, "Seat X").rect().center();
    world.window.drag_at(field);
    world.window.run();
    world.window.drop_at(field);
    world.window.run();
    world.window.get_by_role_and_label(Role::TextInput, "Seat X").type_text("-27 1/2");
    world.window.run();
    world.press(Key::Enter);
    assert_near(master(&world).at.x, -27.5 * 25.4);
}

#[test]
fn arrow_keys_step_to_the_next_sixteenth() {
    let mut world = with_port(MASTER);
    world.enter_field("Seat X");
    world.press(Key::ArrowUp);
    // From −28.03 in up to the next sixteenth, −28 in.
    assert_near(master(&world).at.x, -28.0 * 25.4);
    assert_eq!(world.field("Seat X"), "\u{2212}28");
    world.press(Key::ArrowDown);
    assert_near(master(&world).at.x, -28.0625 * 25.4);
    world.window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowUp);
    world.window.run();
    assert_near(master(&world).at.x, -27.4375 * 25.4);
    assert!(world.is_in_field("Seat X"), "the arrows stay with it");
    assert_eq!(world.undo_label(), Some("Move port"));
}

#[test]
fn a_direction_is_set_by_a_button_or_by_its_parts() {
    let mut world = with_port(MASTER);
    world.press_button("Points \u{2212}Y");
    assert_eq!(master(&world).toward, -glam::DVec3::Y);
    assert_eq!(world.undo_label(), Some("Turn port"));
    world.fill_in("Points X", "0.5");
    assert_eq!(master(&world).toward, glam::dvec3(0.5, -1.0, 0.0));
    world.fill_in("Points X", "0");
    world.fill_in("Points Y", "0");
    assert!(world.has_containing("not all 0"), "the bay's own reason is said");
    assert_eq!(master(&world).toward, -glam::DVec3::Y);
    assert_eq!(world.field("Points Y"), "0");
}

#[test]
fn a_new_id_is_followed_and_one_that_is_taken_is_refused() {
    let mut world = with_port(MASTER);
    world.fill_in("Id", "rail-in");
    assert!(world.has_containing("an id that no other in this list has"));
    assert_eq!(world.depth(), 0);
    world.fill_in("Id", "master");
    assert!(world.bay().port(MASTER).is_none());
    assert!(world.bay().port("master").is_some());
    assert_eq!(world.run("Clutch, master to slave").from.port, "master");
    assert_eq!(world.undo_label(), Some("Change id of port"));
    assert_eq!(world.field("Id"), "master", "it is still the one selected");
}

#[test]
fn a_size_is_named_with_or_without_its_dash() {
    let mut world = with_port(MASTER);
    for (text, dash) in [("-4", Some(4)), ("6", Some(6)), ("\u{2212}3", Some(3))] {
        world.fill_in("Size", text);
        assert_eq!(master(&world).dash, dash);
    }
    world.empty("Size");
    assert_eq!(master(&world).dash, None);
    assert_eq!(world.undo_label(), Some("Change size of port"));
}

#[test]
fn a_port_is_put_on_a_group_and_into_an_obstacle() {
    let mut world = with_port(MASTER);
    world.pick("Moves with", "Engine and gearbox on their mounts");
    assert_eq!(master(&world).group.as_deref(), Some("engine"));
    world.pick("Screwed into", "nothing");
    assert_eq!(master(&world).on, None);
    assert_eq!(world.depth(), 2);
}

#[test]
fn a_leak_test_is_written_down_and_a_fall_of_pressure_fails_it() {
    let mut world = with_hose("Gearbox to oil cooler");
    let state = |world: &World| tested(world.bay(), world.run("Gearbox to oil cooler")).state;
    assert_eq!(state(&world), TestState::NotTested);
    world.press_button("Bench record");
    world.fill_in("Hose lot", "lot 12");
    world.press_button("Record a test");
    assert_eq!(world.undo_label(), Some("Add test"));
    assert_eq!(state(&world), TestState::Incomplete);
    world.pick("Kind of test", "leak check, air under water");
    for (field, typed) in [
        ("Tested on", "2026-11-26"),
        ("Gauge before", "100 psi"),
        ("Temperature before", "20 C"),
        ("Gauge after", "96 psi"),
        ("Temperature after", "10 C"),
        ("Held, seconds", "120"),
        ("Gauge reads to", "1 psi"),
    ] {
        world.fill_in(field, typed);
    }
    world.pick("Leak seen", "none");
    // (100 + 14.696) * 283.15 / 293.15 - 14.696 = 96.09 psi: the cold explains the fall.
    assert_eq!(state(&world), TestState::Passed);
    let verdict = tested(world.bay(), world.run("Gearbox to oil cooler"));
    assert!((verdict.expected_bar.unwrap() * 14.503_773_8 - 96.09).abs() < 0.01, "{verdict:?}");
    world.fill_in("Gauge after", "94 psi");
    assert_eq!(state(&world), TestState::Failed);
    let told = solve_whole(world.bay(), &world.bay().routings[0]);
    let found = check(world.bay(), &world.bay().routings[0], &told);
    assert!(found.iter().any(|f| f.rule == "leak-test" && f.message.contains("lost 2.1 psi")));
}

#[test]
fn a_sleeve_is_put_on_rated_and_taken_off() {
    let mut world = with_hose("Gearbox to oil cooler");
    let sleeves = |world: &World| world.run("Gearbox to oil cooler").sleeves.clone();
    world.press_button("Sleeves");
    world.press_button("Add a sleeve");
    assert_eq!(world.undo_label(), Some("Add sleeve"));
    for (field, typed) in [
        ("Name of sleeve 1", "Fire sleeve"),
        ("From of sleeve 1", "2 in"),
        ("To of sleeve 1", "8 in"),
        ("Rating of sleeve 1", "260 C"),
    ] {
        world.fill_in(field, typed);
    }
    world.pick("Rated for hot of sleeve 1", "yes");
    let put_on = sleeves(&world)[0].clone();
    assert_eq!((put_on.from_mm, put_on.to_mm), (Some(50.8), Some(203.2)));
    assert_eq!((put_on.temperature_c, put_on.rated_for), (Some(260.0), vec![Nature::Hot]));
    // A sleeve that ends before it begins is refused.
    world.fill_in("To of sleeve 1", "1 in");
    assert_eq!(sleeves(&world)[0].to_mm, Some(203.2));
    world.press_button("Remove sleeve 1");
    assert!(sleeves(&world).is_empty());
}

#[test]
fn the_finished_length_corrects_the_set_backs_only_when_asked() {
    let mut world = with_hose("Gearbox to oil cooler");
    let run = |world: &World| world.run("Gearbox to oil cooler").clone();
    let solved = |world: &World| solve_run(world.bay(), &run(world)).expect("it can be measured");
    let before = solved(&world);
    let ends = |world: &World| (run(world).from, run(world).to);
    let old = ends(&world);
    world.press_button("Bench record");
    world.fill_in("Cut to", "1500 mm");
    let set_backs = before.from.set_back_mm + before.to.set_back_mm;
    world.fill_in("Finished overall length", &format!("{} mm", 1503.0 + set_backs));
    assert_eq!(ends(&world), old, "nothing is learnt in silence");
    assert!(world.has_containing("longer than cut and set-backs come to"));
    world.press_button("Correct the set-backs");
    let after = solved(&world);
    let now = after.from.set_back_mm + after.to.set_back_mm;
    assert_near(now - set_backs, 3.0);
    assert_eq!(world.undo_label(), Some("Take finished length over into set-backs"));
}

#[test]
fn a_hose_is_changed_and_left_to_the_engine_again() {
    let mut world = with_hose("Gearbox to oil cooler");
    let run = |world: &World| world.run("Gearbox to oil cooler").clone();
    world.fill_in("Slack", "6 1/2 %");
    assert_eq!(run(&world).slack_pct, Some(6.5));
    assert_eq!(world.undo_label(), Some("Change slack"));
    world.empty("Slack");
    assert_eq!(run(&world).slack_pct, None);
    world.fill_in("Bend radius", "-1");
    assert!(world.has_containing("0 or more is expected here"));
    world.fill_in("Bend radius", "6 in");
    assert_eq!(run(&world).radius_mm, Some(152.4));
    world.fill_in("OD", "14,6 mm");
    assert_eq!(run(&world).outside_mm, Some(14.6));
    world.fill_in("Dry fit", "3' 2\"");
    assert_near(run(&world).dry_fit_mm.unwrap(), 965.2);

    world.pick("Size", "\u{2212}6");
    assert_eq!(run(&world).dash, 6);
    world.press_button("Service conditions");
    world.fill_in("Pressure", "60 psi");
    assert!((run(&world).service.pressure_bar.unwrap() - 4.136_854_375_900_417).abs() < 1e-9);
    world.fill_in("Temperature", "230 F");
    assert!((run(&world).service.temperature_c.unwrap() - 110.0).abs() < 1e-9);
    world.pick("Fluid", "not given");
    assert_eq!(run(&world).service.fluid, None);
    assert!(!world.has("Own fluid"));
    world.pick("Fluid", "another fluid…");
    world.fill_in("Own fluid", "rape oil");
    assert_eq!(run(&world).service.fluid, Some(Fluid::Other("rape oil".into())));
    assert_eq!(world.undo_label(), Some("Change fluid"));
}

#[test]
fn the_ends_of_a_hose_offer_what_they_come_in() {
    let mut world = with_hose("Gearbox to oil cooler");
    let from = |world: &World| world.run("Gearbox to oil cooler").from.clone();
    world.press_button("End A");
    world.pick("Angle of end A", "45°");
    assert_eq!(from(&world).angle_deg, 45.0);
    world.fill_in("Clock angle of end A", "270 - 22,5");
    assert_eq!(from(&world).clock_deg, 247.5);
    world.pick("Fitting of end A", "none: measured below");
    assert!(world.has_containing("or \"along\", \"across\" and \"socket\" all measured"));
    for field in ["Along of end A", "Across of end A", "Socket of end A"] {
        world.fill_in(field, "1");
    }
    assert!(from(&world).is_measured());
    world.pick("Fitting of end A", "none: measured below");
    assert_eq!(from(&world).end, None);
    world.fill_in("Angle of end A", "181");
    assert!(world.has_containing("0 to 180° is expected here"));
    world.fill_in("Angle of end A", "37");
    assert_eq!(from(&world).angle_deg, 37.0);
}

#[test]
fn an_end_is_measured_by_its_sketch() {
    let mut world = with_hose("Gearbox to oil cooler");
    assert!(!world.has_containing("Sketch of the end"));
    world.press_button("End A");
    assert!(world.has_containing("along from the seat to the cut end inside the socket"));
    assert!(!world.has_containing("push hose into the bare socket"));
    world.press_button("How to measure");
    assert!(world.has_containing("push hose into the bare socket"));
}

#[test]
fn a_corner_and_a_clamp_are_changed() {
    let feed = "Filter to fuel rail";
    let mut world = World::with_car();
    world.press(Key::O);
    world.click(&format!("Hose {feed}, plan"));
    world.click(&format!("Corner 1 of {feed}, plan"));
    world.fill_in("Corner Z", "30");
    assert_near(world.via(feed, 0).z, 762.0);
    assert_eq!(world.undo_label(), Some("Move corner"));
    world.fill_in("Bend radius", "5");
    assert_eq!(world.undo_label(), Some("Change radius of corner"));
    world.click(&format!("Clamp 1 of {feed}, front"));
    world.fill_in("Straight", "2");
    world.fill_in("Grip", "1/4");
    world.press_button("Hose runs +X");
    let Via::Clamp(clamp) = &world.run(feed).via[1] else { panic!() };
    assert_eq!((clamp.straight_mm, clamp.grip_mm), (Some(50.8), Some(6.35)));
    assert_eq!(clamp.along.normalize(), glam::DVec3::X);
}

#[test]
fn an_obstacle_is_changed() {
    let mut world = World::with_car();
    world.choose_from_bay("Obstacles", "Select obstacle Engine block");
    let block = |world: &World| world.bay().obstacle("block").unwrap().clone();
    world.empty("Min. clearance");
    assert_eq!(block(&world).min_clearance_mm, None);
    assert_eq!(world.undo_label(), Some("Change minimum clearance"));
    world.pick("Nature", "hot");
    assert!(world.has_containing("FAA AD 95-26-13"), "the source of what is usual");
    world.fill_in("Size X", "20");
    let Shape::Box { min, max } = block(&world).shape else { panic!() };
    assert!((max.x - min.x - 508.0).abs() < 1e-9);
    assert_eq!(min.x, -650.0);
    // The two corners may be given in any order.
    world.fill_in("Box from Z", "50");
    let Shape::Box { min: low, max: high } = block(&world).shape else { panic!() };
    assert_near(low.z, max.z);
    assert_near(high.z, 1270.0);
    world.press_ctrl(Key::Z);
    world.fill_in("Id", "engine-block");
    assert!(world.bay().obstacle("engine-block").is_some());
    assert_eq!(world.field("Id"), "engine-block");
}

#[test]
fn a_group_is_given_another_motion() {
    let mut world = World::with_car();
    world.choose_from_bay("Groups", "Select group Engine and gearbox on their mounts");
    world.fill_in("To of motion 1", "4,5");
    let Motion::Pivot { from_deg, to_deg, .. } = world.bay().groups[0].moves[0] else { panic!() };
    assert_eq!((from_deg, to_deg), (-3.0, 4.5));
    world.press_button("Add a sliding motion");
    assert_eq!(world.undo_label(), Some("Add sliding motion"));
    world.fill_in("To of motion 2 Z", "1/2");
    assert!(matches!(world.bay().groups[0].moves[1], Motion::Slide { to, .. } if to.z == 12.7));
    world.pick("Kind of motion 2", "pivots about a line");
    assert!(matches!(world.bay().groups[0].moves[1], Motion::Pivot { .. }));
    world.press_button("Remove motion 1");
    assert_eq!(world.bay().groups[0].moves.len(), 1);
    world.fill_in("Id", "drive");
    assert_eq!(world.bay().port("rail-in").unwrap().group.as_deref(), Some("drive"));
    assert_eq!(world.field("Id"), "drive");
}

#[test]
fn the_routing_and_the_bay_have_figures_too() {
    let mut world = World::with_car();
    world.press_button("Routing");
    world.fill_in("Hose clearance", "3/8");
    assert_eq!(world.bay().routings[0].hose_clearance_mm, Some(9.525));
    world.press_button("Bay");
    world.fill_in("Title", "Hill climb car");
    assert_eq!(world.bay().title, "Hill climb car");
    assert_eq!(world.undo_label(), Some("Rename bay"));
    world.pick("Units", "mm");
    assert_eq!(world.bay().show_units, hosewright::units::LengthUnit::Mm);
    let notes = world.window.get_by_role_and_label(Role::MultilineTextInput, "Notes");
    notes.focus();
    world.window.run();
    world.press_ctrl(Key::End);
    world.window.get_by_role_and_label(Role::MultilineTextInput, "Notes").type_text(" Checked.");
    world.window.run();
    world.press(Key::Tab);
    assert!(world.bay().notes.ends_with(" Checked."), "{}", world.bay().notes);
    assert_eq!(world.undo_label(), Some("Change notes"));
}

#[test]
fn several_things_of_one_kind_are_changed_together() {
    let mut world = with_port(MASTER);
    world.press_ctrl_shift(Key::A);
    let count = world.bay().ports.len();
    assert!(world.has(&format!("Edit {count} ports")));
    assert!(!world.has_field("Id"), "an id belongs to one");
    assert_eq!(world.field("Seat X"), "", "they differ");
    world.fill_in("Size", "-8");
    assert!(world.bay().ports.iter().all(|port| port.dash == Some(8)));
    assert_eq!((world.depth(), world.undo_label()), (1, Some("Change size of port")));
    world.fill_in("Seat Z", "500 mm");
    assert!(world.bay().ports.iter().all(|port| port.at.z == 500.0));
    assert_eq!(world.depth(), 2);
    world.press_ctrl(Key::Z);
    world.press_ctrl(Key::Z);
    assert_eq!(world.depth(), 0);
}

#[test]
fn ctrl_a_marks_the_text_and_not_the_bay() {
    let mut world = with_port(MASTER);
    world.type_into("Name", "Master");
    world.press_ctrl(Key::A);
    assert_eq!(world.app().selected_things().len(), 1);
    world.window.get_by_role_and_label(Role::TextInput, "Name").type_text("Clutch");
    world.window.run();
    world.press(Key::Enter);
    assert_eq!(master(&world).name, "Clutch");
}

#[test]
fn a_fluid_of_ones_own_is_typed_and_taken_back() {
    const HOSE: &str = "Gearbox to oil cooler";
    let mut world = with_hose(HOSE);
    world.press_button("Result");
    world.press_button("Flow");
    assert!(world.has_containing("Pressure drop in the hose"));
    assert!(world.has_containing("calculated, fluid typical"));
    world.press_button("Edit hose");
    world.press_button("Service conditions");
    world.fill_in("Density of your own fluid", "0");
    assert!(world.has_containing("more than 0 is expected here"));
    world.press(Key::Escape);
    // The bay is in inches, and pounds per cubic foot.
    world.fill_in("Density of your own fluid", "845.5 kg/m³");
    assert_eq!(world.run(HOSE).service.density_kg_m3, Some(845.5));
    assert_eq!(world.undo_label(), Some("Change density"));
    assert!(world.has_containing("the density given is not used without a viscosity"));
    world.fill_in("Viscosity of your own fluid", "12.5");
    assert_eq!(world.run(HOSE).service.viscosity_mm2_s, Some(12.5));
    assert!(!world.has_containing("not used without"));
    world.press_button("Result");
    assert!(world.has_containing("calculated, fluid from the bay file"));
    world.press_button("Edit hose");
    world.press_ctrl(Key::Z);
    world.press_ctrl(Key::Z);
    let service = &world.run(HOSE).service;
    assert_eq!((service.density_kg_m3, service.viscosity_mm2_s), (None, None));
    world.press_button("Result");
    assert!(world.has_containing("calculated, fluid typical"));
}

#[test]
fn the_liner_is_asked_of_a_hose_that_carries_fuel() {
    const FEED: &str = "Feed pipe to filter";
    let mut world = with_hose(FEED);
    assert_eq!(world.run(FEED).conductive_liner, None);
    world.pick("Liner", "conducts");
    assert_eq!(world.run(FEED).conductive_liner, Some(true));
    assert_eq!(world.undo_label(), Some("Change liner"));
    let oil = with_hose("Gearbox to oil cooler");
    assert!(oil.window.query_all_by_role_and_label(Role::ComboBox, "Liner").next().is_none());
}

#[test]
fn a_refused_value_waits_in_its_field_until_it_is_fixed_or_dropped() {
    let mut world = with_hose("Gearbox to oil cooler");
    world.fill_in("Bend radius", "-1");
    let reason = "0 or more is expected here";
    assert!(world.has_containing(reason));
    world.press_button("Result");
    assert!(world.has("Edit hose \u{25a0}"), "it is not forgotten");
    world.press_button("Edit hose \u{25a0}");
    assert_eq!(world.field("Bend radius"), "-1");
    assert!(world.has_containing(reason));
    world.press_button("End A");
    world.fill_in("Clock angle of end A", "noon");
    let refused = "End A: \u{25a0} a value was refused";
    world.press_button(refused);
    assert!(!world.has_field("Clock angle of end A"));
    world.press_button(refused);
    world.enter_field("Clock angle of end A");
    world.press(Key::Escape);
    // Another hose has no part in it; the refused value is there when its own comes back.
    world.window.get_by_label_contains("Filter to fuel rail, \u{2212}").click();
    world.window.run();
    assert!(!world.has_containing(reason));
    world.window.get_by_label_contains("Gearbox to oil cooler, \u{2212}").click();
    world.window.run();
    assert_eq!(world.field("Bend radius"), "-1");
    world.enter_field("Bend radius");
    world.press(Key::Escape);
    assert!(!world.has_containing(reason));
    assert_eq!(world.field("Bend radius"), "");
    assert!(world.has("Edit hose"));
}

#[test]
fn a_refusal_speaks_of_the_field_in_the_units_of_the_bay() {
    let mut world = with_port(MASTER);
    world.fill_in("Seat X", "5000 in");
    assert!(world.has_containing("no more than 3937 in is expected"));
    world.enter_field("Seat X");
    world.press(Key::Escape);
    assert!(!world.has_containing("is expected"));
}

#[test]
fn an_elbow_is_turned_by_its_dial() {
    let mut world = with_hose("Gearbox to oil cooler");
    let from = |world: &World| world.run("Gearbox to oil cooler").from.clone();
    world.press_button("End A");
    world.pick("Angle of end A", "45°");
    let dial = "Dial of Clock angle of end A";
    world.window.get_by_label(dial).scroll_to_me();
    world.window.run();
    let middle = world.place_of(dial);
    // Right on the dial is three quarters counter-clockwise from up.
    let three = middle + vec2(25.0, 0.0);
    world.window.drag_at(three);
    world.window.drop_at(three);
    world.window.run();
    assert_eq!(from(&world).clock_deg, 270.0);
    assert_eq!(world.undo_label(), Some("Turn end"));
    assert!(world.has_containing("3 o\u{2019}clock"));
}

#[test]
fn an_end_is_copied_from_the_other_without_its_port_and_clock() {
    let mut world = with_hose("Gearbox to oil cooler");
    world.press_button("End A");
    world.pick("Angle of end A", "45°");
    let before = world.run("Gearbox to oil cooler").clone();
    world.press_button("End A");
    world.press_button("End B");
    world.press_button("Fitting as the other end");
    let after = world.run("Gearbox to oil cooler").to.clone();
    assert_eq!((after.angle_deg, after.end), (45.0, before.from.end.clone()));
    assert_eq!((after.port, after.clock_deg), (before.to.port, before.to.clock_deg));
    assert!(!world.has("Fitting as the other end"), "they are alike now");
    assert_eq!(world.undo_label(), Some("Copy end fitting"));
}
