//! Names while something is moved: those of what stays where it was stay too, so that nothing flickers.

use glam::DVec2;

use super::super::scene::Scene;
use super::ViewLayout;
use super::label::{MARGIN, Naming, Setting, about, lay_out};
use super::names::{Label, Named};

/// [`lay_out`] on the names of `before`; with a view that is moved along they move along. Views of different
/// scales have nothing in common.
pub(super) fn follow(
    scene: &Scene,
    layout: &ViewLayout,
    naming: &Naming<'_>,
    before: &ViewLayout,
) -> Vec<Label> {
    let Some(shift) = shift(before, layout) else { return lay_out(scene, layout, naming) };
    let stays_at = |old: DVec2, new: DVec2| (old + shift).abs_diff_eq(new, 1e-6);
    let obstacle_in = |layout: &ViewLayout, index: usize| {
        layout.obstacles.iter().position(|obstacle| obstacle.index == index)
    };
    let mut setting = Setting::without_hoses(layout, naming);
    let mut moved = Vec::new();
    for label in &before.labels {
        let stays = match label.of {
            Named::Port(i) => {
                let [old, new] = [before, layout].map(|l| l.ports.get(i).map(|port| port.at));
                old.zip(new).is_some_and(|(old, new)| stays_at(old, new))
            }
            Named::Obstacle(i) => match (obstacle_in(before, i), obstacle_in(layout, i)) {
                (Some(a), Some(b)) => {
                    let [old, new] = [&before.obstacles[a].about, &layout.obstacles[b].about];
                    stays_at(old.min, new.min) && stays_at(old.max, new.max)
                }
                _ => false,
            },
            Named::Via(_) | Named::Pointed => continue,
        };
        let label = label.moved(shift);
        if stays && is_still_its_own(&setting, &label) {
            // What leaves the view with its thing loses its name.
            if setting.room.is_inside(label.area) {
                setting.room.take(label.area);
                setting.labels.push(label);
            }
        } else {
            moved.push(label.of);
        }
    }
    let vias: Vec<Named> =
        naming.asked.iter().filter(|of| matches!(of, Named::Via(_))).copied().collect();
    if moved.is_empty() {
        for of in &vias {
            if let Some(via) = setting.via(*of) {
                let region = about(via.at, setting.reach(&via.name));
                setting.room.mark_hoses(&layout.bands, region);
            }
        }
    } else {
        setting.room.mark_hoses(&layout.bands, layout.area);
    }
    for of in vias.into_iter().chain(moved) {
        setting.name(scene, of, naming.asked.contains(&of));
    }
    setting.labels
}

/// Whether no mark has come so near to a name that it would be read as that one's.
fn is_still_its_own(setting: &Setting<'_>, label: &Label) -> bool {
    let own = setting.room.mark_of(label.of).map_or(0.0, |mark| mark.gap(label.area));
    let reach = if label.leader.is_some() { 0.0 } else { own + MARGIN / 2.0 };
    !setting.room.has_other_within(label.area, label.of, reach)
}

/// How far everything that stays in the bay has moved on the screen; none where it has not only moved.
fn shift(before: &ViewLayout, layout: &ViewLayout) -> Option<DVec2> {
    let same =
        before.area == layout.area && before.camera.points_per_mm == layout.camera.points_per_mm;
    let origin = |l: &ViewLayout| l.camera.to_screen(l.area, DVec2::ZERO);
    same.then(|| origin(layout) - origin(before))
}
