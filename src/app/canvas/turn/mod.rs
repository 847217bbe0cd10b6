//! The turning view: the bay from any side, to see how hoses pass over and under.

pub mod camera;
pub mod deed;
mod hand;
pub mod picture;
pub mod raster;
pub mod surface;
pub mod tube;

pub use surface::{Edge, Facet, Surface, surface};

pub(super) use hand::show;

use std::sync::Arc;

use glam::DVec3;

use self::camera::TurnCamera;
use self::picture::Picture;
use super::camera::Area;
use super::scene::Scene;
use crate::app::canvas::turn::deed::Deed;

/// The turning view and what is kept of it.
#[derive(Debug, Clone, Default)]
pub struct Turning {
    /// Where it looks.
    pub camera: TurnCamera,
    fitted: bool,
    picture: Picture,
    /// What the picture was drawn of.
    of: Option<(Arc<()>, TurnCamera, Area, f64)>,
}

impl Turning {
    /// Does what was asked; `bounds` is the box of the bay.
    pub fn act(&mut self, deed: Deed, bounds: (DVec3, DVec3)) {
        let area = self.picture.area();
        match deed {
            Deed::Turn(by) => self.camera.turn(by),
            Deed::Pan(by) => self.camera.pan(by),
            Deed::Zoom { factor, at } => self.camera.zoom(factor, area, at),
            Deed::LookFrom(outlook) => {
                self.camera.look_from(outlook);
                self.fit(bounds, area);
            }
            Deed::Fit => self.fit(bounds, area),
        }
    }

    /// Shows a box as large as it goes, where the view has a place.
    pub fn fit(&mut self, bounds: (DVec3, DVec3), area: Area) {
        if area.size().min_element() > 0.0 {
            self.camera.fit(bounds, area);
            self.fitted = true;
        }
    }

    /// Whether it has looked at anything yet.
    pub fn is_fitted(&self) -> bool {
        self.fitted
    }

    /// The picture as it was drawn last.
    pub fn picture(&self) -> &Picture {
        &self.picture
    }

    /// The picture of a scene, drawn again only where something has changed.
    pub fn draw(&mut self, scene: &Scene, area: Area, pixels_per_point: f64) -> &Picture {
        let of = (Arc::clone(scene.identity()), self.camera, area, pixels_per_point);
        let same = self.of.as_ref().is_some_and(|old| {
            Arc::ptr_eq(&old.0, &of.0) && (old.1, old.2, old.3) == (of.1, of.2, of.3)
        });
        if !same {
            self.picture.draw(scene, self.camera, area, pixels_per_point);
            self.of = Some(of);
        }
        &self.picture
    }
}
