//! A solid as it is drawn: its form, and what is worked out of that when first asked for.

use std::sync::OnceLock;

use glam::DVec2;

use super::camera::View;
use super::outline::{self, Cloud, Outline};
use super::turn::{Surface, surface};
use crate::model::{Bay, Nature, Shape, Solid};

/// A solid.
#[derive(Debug, Clone)]
pub struct SolidMark {
    /// Id of the solid.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Name and nature.
    pub label: String,
    /// Why to keep off.
    pub nature: Nature,
    /// How far, mm.
    pub keep_off_mm: f64,
    /// Its form.
    pub shape: Shape,
    /// The body it rides on, by its place in the bay.
    pub body: Option<usize>,
    skins: Skins,
}

/// What is worked out of a solid's form when first asked for.
#[derive(Debug, Clone, Default)]
struct Skins {
    surface: OnceLock<Surface>,
    cloud: OnceLock<Cloud>,
    outlines: [OnceLock<(Outline, Vec<Vec<DVec2>>)>; 3],
}

impl SolidMark {
    /// Its skin in space.
    pub fn surface(&self) -> &Surface {
        self.skins.surface.get_or_init(|| surface(&self.shape))
    }

    /// Its outline in a view and the lines at its keep-off distance, mm.
    pub fn outlined(&self, view: View) -> &(Outline, Vec<Vec<DVec2>>) {
        self.skins.outlines[view.index()].get_or_init(|| {
            let outline = outline::outline(view, &self.shape);
            let keep_off = outline::at_distance(&outline, self.keep_off_mm);
            (outline, keep_off)
        })
    }

    /// What it is the hull of.
    pub fn cloud(&self) -> &Cloud {
        self.skins.cloud.get_or_init(|| outline::cloud(&self.shape))
    }
}

/// The mark of a solid of a bay.
pub(super) fn solid(bay: &Bay, solid: &Solid) -> SolidMark {
    let of_body = |id: &str| bay.bodies.iter().position(|body| body.id == id);
    let name = solid.shown_name();
    SolidMark {
        id: solid.id.clone(),
        name: name.to_owned(),
        label: match solid.nature {
            Nature::Plain => name.to_owned(),
            nature if name.to_lowercase().contains(nature.word()) => name.to_owned(),
            nature => format!("{name}, {}", nature.word()),
        },
        nature: solid.nature,
        keep_off_mm: solid.keep_off_in_force_mm(),
        shape: solid.shape.clone(),
        body: solid.body.as_deref().and_then(of_body),
        skins: Skins::default(),
    }
}
