//! Two pictures, to see at a glance what a change does to the look. They want a Vulkan or GL
//! driver (Debian: mesa-vulkan-drivers), which the two commands of the README must do without:
//! `cargo test --test ui -- --ignored`; `UPDATE_SNAPSHOTS=1` renews them.

use eframe::egui::{Theme, vec2};
use egui_kittest::SnapshotOptions;

use crate::world::World;

fn picture(name: &str, demo: &str, theme: Theme) {
    let mut world = World::with(Some(demo), vec2(1366.0, 768.0), theme);
    let routings = SnapshotOptions::new()
        .output_path(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/ui/pictures"))
        .max_failed_pixels(400);
    world.window.snapshot_options(name, &routings);
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn trials_car_light() {
    picture("trials-car-light", "demo_projects/trials-car.bay.json", Theme::Light);
}

#[test]
#[ignore = "wants a Vulkan or GL driver; .ci/run installs one and runs it"]
fn diesel_launch_dark() {
    picture("diesel-launch-dark", "demo_projects/diesel-launch.bay.json", Theme::Dark);
}
