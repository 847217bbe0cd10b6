//! Work is not lost: recovery copies, what a dead window left, files that another has changed.

use std::path::PathBuf;

use eframe::egui::{Key, vec2};
use hosewright::app::files::Reply;
use hosewright::document::file;

use crate::world::World;

const PORT: &str = "Port Clutch slave cylinder, inlet, plan";

fn copies(world: &World) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(world.folder.path())
        .unwrap()
        .chain(std::fs::read_dir(world.in_folder("recovery")).into_iter().flatten());
    let paths = entries.map(|entry| entry.unwrap().path());
    paths.filter(|path| path.extension().is_some_and(|ending| ending == "recover")).collect()
}

/// A car with an unsaved change, and its recovery copy written.
fn changed() -> World {
    let mut world = World::with_car();
    world.drag(PORT, vec2(0.0, -30.0));
    world.window.run();
    world.settle();
    assert!(world.app().document().unwrap().is_changed());
    world
}

#[test]
fn a_change_is_kept_beside_the_file_and_the_file_is_not_touched() {
    let world = changed();
    let copies = copies(&world);
    assert_eq!(copies.len(), 1, "{copies:?}");
    let bytes = std::fs::read(&copies[0]).unwrap();
    let (note, text) = file::parse(&bytes).unwrap();
    assert_eq!(note.of, Some(world.in_folder("car.bay.json")));
    assert_eq!(text, file::write(world.bay()).unwrap().as_bytes());
    assert_ne!(file::load(&world.in_folder("car.bay.json")).unwrap(), *world.bay());
}

#[test]
fn nothing_is_kept_while_nothing_is_changed_or_the_button_is_down() {
    let mut world = World::with_car();
    world.window.run();
    world.settle();
    assert!(copies(&world).is_empty());
    let at = world.take_and_move(PORT, vec2(0.0, -30.0));
    world.window.run();
    world.settle();
    assert!(copies(&world).is_empty());
    world.window.drop_at(at);
    world.window.run();
    world.window.run();
    world.settle();
    assert_eq!(copies(&world).len(), 1);
}

#[test]
fn saving_undoing_and_discarding_take_the_copy_away() {
    let away: [fn(&mut World); 3] = [
        |world| world.press_ctrl(Key::S),
        |world| world.press_ctrl(Key::Z),
        |world| {
            world.press_ctrl(Key::N);
            world.click("Discard");
        },
    ];
    for step in away {
        let mut world = changed();
        assert_eq!(copies(&world).len(), 1);
        step(&mut world);
        world.window.run();
        world.settle();
        assert!(copies(&world).is_empty());
    }
}

#[test]
fn after_a_crash_the_work_is_offered_and_comes_back_unsaved() {
    let world = changed();
    let lost = world.bay().clone();
    let mut world = world.crash_and_open(Some("car.bay.json"));
    assert!(world.has_containing("Recover \u{201c}"), "it asks");
    assert!(world.has_containing("Unsaved changes of") && world.has_containing("ago"));
    assert_ne!(*world.bay(), lost, "never silently");
    world.click("Recover");
    assert_eq!(*world.bay(), lost);
    assert!(world.app().document().unwrap().is_changed(), "recovered work is not saved");
    world.settle();
    assert_eq!(copies(&world).len(), 1, "it has a copy again, of its own");
    world.press_ctrl(Key::Z);
    let saved = file::load(&world.in_folder("car.bay.json")).unwrap();
    assert_eq!(*world.bay(), saved, "undo leads back to the file");
}

#[test]
fn a_second_crash_right_after_recovering_loses_nothing() {
    let world = changed();
    let lost = world.bay().clone();
    let mut world = world.crash_and_open(Some("car.bay.json"));
    world.click("Recover");
    let mut world = world.crash_and_open(Some("car.bay.json"));
    world.click("Recover");
    assert_eq!(*world.bay(), lost);
}

#[test]
fn later_keeps_the_copy_and_throwing_away_does_not() {
    let world = changed();
    let mut world = world.crash_and_open(Some("car.bay.json"));
    world.press(Key::Escape);
    assert!(!world.has("Recover"));
    assert_eq!(copies(&world).len(), 1);
    let mut world = world.crash_and_open(Some("car.bay.json"));
    world.click("Delete copy");
    assert!(!world.has("Recover"));
    assert!(copies(&world).is_empty());
}

#[test]
fn a_copy_that_says_what_the_file_says_is_not_offered() {
    let world = changed();
    file::save(&world.in_folder("car.bay.json"), world.bay()).unwrap();
    let world = world.crash_and_open(Some("car.bay.json"));
    assert!(!world.has("Recover"));
    assert!(copies(&world).is_empty());
}

#[test]
fn a_bay_without_a_file_is_offered_when_the_window_opens() {
    let mut world = World::new();
    world.click("Light trials car");
    world.drag(PORT, vec2(0.0, -30.0));
    world.window.run();
    world.settle();
    let lost = world.bay().clone();
    let mut world = world.crash_and_open(None);
    assert!(world.has("It was never saved to a file"));
    world.click("Recover");
    assert_eq!(*world.bay(), lost);
    assert!(world.app().document().unwrap().path().is_none());
}

#[test]
fn a_damaged_copy_can_only_be_put_off_or_thrown_away() {
    let mut world = World::with_car();
    std::fs::write(world.in_folder(".car.bay.json.77.recover"), "cut sho").unwrap();
    world = world.crash_and_open(Some("car.bay.json"));
    assert!(world.has_containing("It cannot be read"));
    world.click("Recover");
    assert!(world.has("Delete copy"), "the button is dead");
    world.click("Delete copy");
    assert!(copies(&world).is_empty());
}

#[test]
fn another_window_on_the_file_is_left_alone() {
    let first = changed();
    let second = World::beside(&first, Some("car.bay.json"));
    assert!(!second.has("Recover"), "the first lives");
    assert_eq!(copies(&first).len(), 1);
}

#[test]
fn a_file_that_another_changed_is_saved_over_only_when_told_to() {
    let mut world = changed();
    let path = world.in_folder("car.bay.json");
    let mut theirs = file::load(&path).unwrap();
    theirs.title = "Theirs".into();
    file::save(&path, &theirs).unwrap();
    world.press_ctrl(Key::S);
    assert!(world.has_containing("was changed by another program"));
    world.press(Key::Escape);
    assert_eq!(file::load(&path).unwrap(), theirs);
    assert!(world.app().document().unwrap().is_changed());

    world.press_ctrl(Key::S);
    let copy = world.in_folder("mine.bay.json");
    world.will_answer(Reply::Path(copy.clone()));
    world.click("Save as\u{2026}");
    assert_eq!(file::load(&copy).unwrap(), *world.bay());
    assert_eq!(file::load(&path).unwrap(), theirs);
}

#[test]
fn after_saving_over_it_the_file_is_known_again() {
    let mut world = changed();
    let path = world.in_folder("car.bay.json");
    std::fs::write(&path, "theirs").unwrap();
    world.press_ctrl(Key::S);
    world.click("Save over it");
    assert_eq!(file::load(&path).unwrap(), *world.bay());
    world.drag(PORT, vec2(0.0, 20.0));
    world.press_ctrl(Key::S);
    assert!(!world.has_containing("somebody else"));
    assert_eq!(file::load(&path).unwrap(), *world.bay());
}

#[test]
fn quitting_over_a_changed_file_waits_for_the_answer() {
    let mut world = changed();
    std::fs::write(world.in_folder("car.bay.json"), "theirs").unwrap();
    world.press_ctrl(Key::Q);
    world.click("Save");
    assert!(!world.app().is_leaving());
    world.click("Save over it");
    assert!(world.app().is_leaving());
}

#[test]
fn long_reading_is_shown_and_can_be_stopped() {
    let mut world = World::impatient();
    let path = world.in_folder("big.bay.json");
    World::big_bay(&path);
    world.will_answer(Reply::Path(path));
    world.press_ctrl(Key::O);
    assert!(world.has_containing("Opening big.bay.json"));
    world.click("Stop");
    assert!(world.app().document().is_none());
    assert!(world.has_containing("nothing was opened"));
}

#[test]
fn long_reading_ends_with_the_bay() {
    let mut world = World::impatient();
    let path = world.in_folder("big.bay.json");
    World::big_bay(&path);
    world.will_answer(Reply::Path(path.clone()));
    world.press_ctrl(Key::O);
    for _ in 0..2000 {
        if world.app().document().is_some() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        world.window.run_steps(1);
    }
    assert_eq!(*world.bay(), file::load(&path).unwrap());
}
