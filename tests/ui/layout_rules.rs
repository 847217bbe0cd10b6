//! Rules that hold in a window of any size with text of any size: no text is cut without "…", nothing is
//! printed over anything else, no two things to press overlap, and undo, redo and the length sheet are there.

use eframe::egui::accesskit::Role;
use eframe::egui::{Rect, Shape, Theme, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use hosewright::app::comfort;

use crate::world::World;

/// Sizes of the window, pixels.
const WINDOWS: [[f32; 2]; 4] =
    [[1024.0, 700.0], [1366.0, 768.0], [1920.0, 1080.0], [3840.0, 2160.0]];
/// Sizes of the text, per cent.
const TEXTS: [f32; 5] = [80.0, 100.0, 120.0, 150.0, 200.0];

/// What is shown: a bay, and how to come to it.
type State = (&'static str, Option<&'static str>, fn(&mut World));

const FAULTS: &str = "demo_projects/faults-on-purpose.bay.json";
const DIESEL: &str = "demo_projects/diesel-launch.bay.json";

const STATES: [State; 7] = [
    ("empty", None, |_| {}),
    ("result", Some(FAULTS), |_| {}),
    ("edit", Some(FAULTS), |world| world.press_button("Edit hose")),
    ("findings", Some(FAULTS), |world| {
        let first = world.window.get_all_by_label_contains("faults, ").next();
        first.expect("they are counted").click();
        world.window.run();
    }),
    ("bay", Some(DIESEL), |world| world.press_button("Bay")),
    ("cut list", Some(DIESEL), |world| {
        world.press_shift(eframe::egui::Key::B);
    }),
    ("compare", Some(FAULTS), |world| {
        world.press_shift(eframe::egui::Key::O);
    }),
];

/// The window in points, as large as text of this size leaves it.
fn points(window: [f32; 2], text: f32) -> Vec2 {
    let size = Vec2::from(window);
    size / comfort::zoom_that_fits(size, text / 100.0)
}

#[test]
fn the_window_is_laid_out_at_every_size() {
    let mut faults = Vec::new();
    for (state, bay, go_there) in STATES {
        for window in WINDOWS {
            for text in TEXTS {
                let size = points(window, text);
                let mut world = World::with(bay, size, Theme::Light);
                go_there(&mut world);
                let at = format!("{state}, {} x {} at {text} %", window[0], window[1]);
                let found = cut_texts(&world).into_iter().chain(overprints(&world));
                let found = found.chain(overlaps(&world)).chain(missing(&world, bay.is_some()));
                faults.extend(found.map(|fault| format!("{at}: {fault}")));
            }
        }
    }
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
}

/// A text in the window: what it says, where it is, the part of the window it is painted in.
struct Text {
    said: String,
    place: Rect,
    clip: Rect,
}

impl Text {
    fn seen(&self) -> Rect {
        self.place.intersect(self.clip)
    }
}

/// Outside the views, whose lettering has rules of its own.
fn texts(world: &World) -> Vec<Text> {
    let board = world.app().board();
    let mut texts = Vec::new();
    for clipped in &world.window.output().shapes {
        let mut stack = vec![&clipped.shape];
        while let Some(shape) = stack.pop() {
            match shape {
                Shape::Vec(shapes) => stack.extend(shapes),
                Shape::Text(text) => {
                    let place = text.visual_bounding_rect();
                    let said = text.galley.text().to_owned();
                    let is_in_view = board.is_some_and(|board| board.contains(place.center()));
                    if !said.trim().is_empty() && place.is_positive() && !is_in_view {
                        texts.push(Text { said, place, clip: clipped.clip_rect });
                    }
                }
                _ => {}
            }
        }
    }
    texts.retain(|text| text.seen().is_positive());
    texts
}

/// A pixel or so is the side of a letter.
const SLACK: f32 = 1.5;

fn cut_texts(world: &World) -> Vec<String> {
    let window = world.window.ctx.content_rect();
    let cut = |text: &Text| {
        let beyond = |clip: Rect| {
            text.place.min.x < clip.min.x - SLACK || text.place.max.x > clip.max.x + SLACK
        };
        // What scrolls is cut above and below.
        let is_low =
            text.clip.max.y >= window.max.y - 1.0 && text.place.max.y > window.max.y + SLACK;
        beyond(text.clip) || beyond(window) || is_low
    };
    let texts = texts(world);
    texts.iter().filter(|text| cut(text)).map(|text| format!("cut: {:?}", text.said)).collect()
}

fn overprints(world: &World) -> Vec<String> {
    let texts = texts(world);
    let mut found = Vec::new();
    for (i, one) in texts.iter().enumerate() {
        for other in &texts[i + 1..] {
            let both = one.seen().intersect(other.seen());
            if both.width() > SLACK && both.height() > 3.0 {
                found.push(format!("{:?} printed over {:?}", other.said, one.said));
            }
        }
    }
    found
}

/// Things to press outside the views, where they are.
fn controls(world: &World) -> Vec<(String, Rect)> {
    const ROLES: [Role; 6] = [
        Role::Button,
        Role::TextInput,
        Role::ComboBox,
        Role::CheckBox,
        Role::RadioButton,
        Role::Slider,
    ];
    let board = world.app().board();
    let mut found = Vec::new();
    for role in ROLES {
        for node in world.window.query_all_by_role(role) {
            let place = node.rect();
            let label = node.accesskit_node().label().unwrap_or_default();
            if place.is_positive() && board.is_none_or(|board| !board.contains(place.center())) {
                found.push((label, place));
            }
        }
    }
    found
}

fn overlaps(world: &World) -> Vec<String> {
    let all = controls(world);
    let mut found = Vec::new();
    for (i, (one, place)) in all.iter().enumerate() {
        for (other, beside) in &all[i + 1..] {
            let both = place.intersect(*beside);
            let is_inside = place.contains_rect(*beside) || beside.contains_rect(*place);
            if both.width() > 2.0 && both.height() > 2.0 && !is_inside {
                found.push(format!("{one:?} and {other:?} overlap"));
            }
        }
    }
    found
}

fn missing(world: &World, has_bay: bool) -> Vec<String> {
    let window = world.window.ctx.content_rect().expand(0.5);
    let wanted = if has_bay {
        &["File", "Help", "Undo", "Redo", "Length sheet\u{2026}"][..]
    } else {
        &["File", "Help"]
    };
    let is_there = |label: &&&str| {
        let found = world.window.query_all_by_role_and_label(Role::Button, label);
        found.into_iter().any(|node| window.contains_rect(node.rect()))
    };
    wanted.iter().filter(|label| !is_there(label)).map(|l| format!("{l} is not there")).collect()
}

#[test]
fn text_is_as_large_as_the_window_has_room_for() {
    let zoom = |x, y, text| comfort::zoom_that_fits(vec2(x, y), text);
    assert!((zoom(3840.0, 2160.0, 2.0) - 2.0).abs() < 1e-6);
    assert!((zoom(1366.0, 768.0, 1.5) - 1.5).abs() < 1e-6);
    let held = zoom(1024.0, 700.0, 2.0);
    assert!(held > 1.0 && held < 2.0, "{held}");
    assert!((zoom(400.0, 300.0, 2.0) - 0.8).abs() < 1e-6, "never smaller than the smallest");
}
