//! Pictures of the window in eight states, to see at a glance what a change does to the look. They want
//! a Vulkan or GL driver (Debian: mesa-vulkan-drivers), which the two commands of the README must do
//! without: `cargo test --test ui -- --ignored`; `UPDATE_SNAPSHOTS=1` renews them.

use eframe::egui::{Key, Theme, vec2};
use egui_kittest::SnapshotOptions;

use crate::world::World;

const CAR: Option<&str> = Some("demo_projects/trials-car.bay.json");
const FAULTS: Option<&str> = Some("demo_projects/faults-on-purpose.bay.json");
const LAUNCH: Option<&str> = Some("demo_projects/diesel-launch.bay.json");

fn world(bay: Option<&str>, theme: Theme) -> World {
    World::with(bay, vec2(1366.0, 768.0), theme)
}

fn picture(name: &str, mut world: World) {
    let options = SnapshotOptions::new()
        .output_path(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/pictures"))
        .max_failed_pixels(400);
    world.window.snapshot_options(name, &options);
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn empty() {
    picture("empty", world(None, Theme::Light));
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn first_hose() {
    let mut world = world(None, Theme::Light);
    world.press_ctrl(Key::N);
    world.press(Key::P);
    world.drag_between(world.in_plan(-180.0, 60.0), world.in_plan(-120.0, 60.0));
    world.drag_between(world.in_plan(180.0, -60.0), world.in_plan(120.0, -60.0));
    world.press(Key::H);
    let ends = ["Port 1", "Port 2"].map(|port| world.place_of(&format!("Port {port}, plan")));
    world.drag_between(ends[0], ends[1]);
    world.wait_for("Make this change");
    picture("first-hose", world);
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn fault() {
    let mut world = world(FAULTS, Theme::Light);
    // What was tried against the fault is told when it is known.
    world.wait_for("Tried: ");
    picture("fault", world);
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn all_clear() {
    picture("all-clear", world(CAR, Theme::Light));
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn edit() {
    let mut world = world(CAR, Theme::Light);
    world.press_button("Edit hose");
    picture("edit", world);
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn compare() {
    let mut world = world(CAR, Theme::Light);
    world.press_shift(Key::O);
    world.wait_while_it_says("Being calculated");
    picture("compare", world);
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn dark() {
    picture("dark", world(LAUNCH, Theme::Dark));
}

/// Text at 150 %.
#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn large_text() {
    let mut world = world(CAR, Theme::Light);
    for _ in 0..5 {
        world.press_ctrl(Key::Plus);
    }
    world.click("Dismiss");
    picture("large-text", world);
}
