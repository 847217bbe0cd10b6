//! Photos and outlines under a view, to draw over.

use glam::{DVec2, dvec2};
use serde_json::Value;

use super::Extra;
use crate::geom::{Homography, HomographyError};

/// One entry of the bay's backgrounds.
#[derive(Debug, Clone, PartialEq)]
pub enum BackgroundEntry {
    /// One that this version knows.
    Known(Box<Background>),
    /// One of another kind, kept as it stands in the file.
    Other(Value),
}

impl BackgroundEntry {
    /// It, where it is known.
    pub fn known(&self) -> Option<&Background> {
        match self {
            Self::Known(background) => Some(background),
            Self::Other(_) => None,
        }
    }
}

/// A photo or an outline in the plane of one view.
#[derive(Debug, Clone, PartialEq)]
pub struct Background {
    /// Unique among backgrounds.
    pub id: String,
    /// Shown to the user; the file's name where empty.
    pub name: String,
    /// The view it lies under.
    pub plane: Plane,
    /// Its file, relative to the bay file; absolute while the bay has no file.
    pub file: String,
    /// How strongly it is drawn, 0 to 1.
    pub opacity: f64,
    /// Whether it is guarded against moving.
    pub locked: bool,
    /// Whether it is not drawn.
    pub hidden: bool,
    /// Where its origin lies in the plane (right and up), mm.
    pub origin: DVec2,
    /// How it is turned, counter-clockwise.
    pub rotation_deg: f64,
    /// What it is.
    pub content: Content,
    /// Unknown keys.
    pub extra: Extra,
}

/// The plane of a view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Plane {
    /// X right, Y up.
    #[default]
    Plan,
    /// X right, Z up.
    Side,
    /// Y right, Z up.
    Front,
}

impl Plane {
    /// All, with the words of the file.
    pub const ALL: [(Self, &'static str); 3] =
        [(Self::Plan, "plan"), (Self::Side, "side"), (Self::Front, "front")];

    /// The word of the file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plan => "plan",
            Self::Side => "side",
            Self::Front => "front",
        }
    }
}

/// What lies there. Pixels are those of the upright photo (as its EXIF orientation turns it),
/// counted from its upper left corner to the right and down.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// A photo, where its upper left corner is the origin.
    Photo {
        /// Width and height of the photo that `mm_per_pixel` counts by.
        size_px: DVec2,
        /// Its scale.
        mm_per_pixel: f64,
    },
    /// A photo straightened by four corners of a rectangle that is seen in it; the first corner is
    /// the origin.
    Straightened {
        /// Width and height of the photo that the corners count by.
        size_px: DVec2,
        /// The corners, counter-clockwise as installed in the plane.
        corners_px: [DVec2; 4],
        /// The rectangle: from the first corner to the second, and to the fourth, mm.
        rectangle: DVec2,
    },
    /// A drawing, where its own origin is the origin.
    Outline {
        /// Millimetres a unit of the drawing.
        scale: f64,
    },
}

impl Background {
    /// The map from the photo's pixels, or the drawing's units, to the plane, mm.
    ///
    /// # Errors
    /// Corners that are those of no rectangle; a bay from a file has none such.
    pub fn map(&self) -> Result<Homography, HomographyError> {
        let (origin, turn) = (self.origin, self.rotation_deg);
        match &self.content {
            Content::Photo { mm_per_pixel, .. } => {
                Ok(Homography::of_image(origin, *mm_per_pixel, turn))
            }
            Content::Outline { scale } => Ok(Homography::similarity(origin, *scale, turn)),
            Content::Straightened { corners_px, rectangle, .. } => {
                let flat = Homography::similarity(origin, 1.0, turn);
                Ok(straighten(*corners_px, *rectangle)?.then(&flat))
            }
        }
    }

    /// Moved in its plane.
    #[must_use]
    pub fn moved(mut self, by: DVec2) -> Self {
        self.origin += by;
        self
    }

    /// Turned counter-clockwise about a point of its plane.
    #[must_use]
    pub fn turned(mut self, about: DVec2, by_deg: f64) -> Self {
        let turn = Homography::similarity(DVec2::ZERO, 1.0, by_deg);
        let arm = turn.apply(self.origin - about).unwrap_or_default();
        self.origin = about + arm;
        self.rotation_deg = (self.rotation_deg + by_deg).rem_euclid(360.0);
        self
    }

    /// Scaled about a point of its plane.
    #[must_use]
    pub fn scaled(mut self, about: DVec2, by: f64) -> Self {
        self.origin = about + (self.origin - about) * by;
        match &mut self.content {
            Content::Photo { mm_per_pixel, .. } => *mm_per_pixel *= by,
            Content::Straightened { rectangle, .. } => *rectangle *= by,
            Content::Outline { scale } => *scale *= by,
        }
        self
    }

    /// Width and height of the photo that it was placed by; none for an outline.
    pub fn size_px(&self) -> Option<DVec2> {
        match self.content {
            Content::Photo { size_px, .. } | Content::Straightened { size_px, .. } => Some(size_px),
            Content::Outline { .. } => None,
        }
    }

    /// What it is called: its name, else its file's.
    pub fn title(&self) -> &str {
        if self.name.is_empty() {
            self.file.rsplit(['/', '\\']).next().unwrap_or(&self.file)
        } else {
            &self.name
        }
    }
}

/// The map that lays a rectangle seen in a photo flat, its first corner at the origin.
///
/// # Errors
/// [`HomographyError`], where the corners are those of no rectangle that a photo could show.
pub fn straighten(corners_px: [DVec2; 4], rectangle: DVec2) -> Result<Homography, HomographyError> {
    let DVec2 { x, y } = rectangle;
    let flat = [dvec2(0.0, 0.0), dvec2(x, 0.0), dvec2(x, y), dvec2(0.0, y)];
    // Upside down, so that a photo is not taken for a mirror's.
    let up = corners_px.map(|p| dvec2(p.x, -p.y));
    let flip = Homography::of_image(DVec2::ZERO, 1.0, 0.0);
    Ok(flip.then(&Homography::from_corners(up, flat)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn photo() -> Background {
        Background {
            id: "u".into(),
            name: String::new(),
            plane: Plane::Plan,
            file: "photos/bay.jpg".into(),
            opacity: 0.5,
            locked: false,
            hidden: false,
            origin: dvec2(-100.0, 80.0),
            rotation_deg: 30.0,
            content: Content::Photo { size_px: dvec2(400.0, 300.0), mm_per_pixel: 2.0 },
            extra: Extra::new(),
        }
    }

    fn straightened() -> Background {
        let corners_px = [(50.0, 250.0), (350.0, 240.0), (300.0, 60.0), (90.0, 70.0)];
        Background {
            content: Content::Straightened {
                size_px: dvec2(400.0, 300.0),
                corners_px: corners_px.map(DVec2::from),
                rectangle: dvec2(600.0, 400.0),
            },
            ..photo()
        }
    }

    #[test]
    fn changes_of_place_are_rigid_or_scale_about_their_point() {
        let outline = Background { content: Content::Outline { scale: 25.4 }, ..photo() };
        for background in [photo(), straightened(), outline] {
            let seen = |u: &Background| u.map().unwrap().apply(dvec2(120.0, 130.0)).unwrap();
            let (before, about) = (seen(&background), dvec2(7.0, -9.0));
            let moved = seen(&background.clone().moved(dvec2(3.0, 4.0)));
            assert!((moved - before).distance(dvec2(3.0, 4.0)) < 1e-9);
            let scaled = seen(&background.clone().scaled(about, 1.7));
            assert!((scaled - about).distance((before - about) * 1.7) < 1e-9);
            let turned = seen(&background.turned(about, 90.0));
            assert!((turned - about).distance((before - about).perp()) < 1e-9);
        }
    }

    #[test]
    fn the_corners_lie_where_they_are_told() {
        let background = Background { rotation_deg: 90.0, ..straightened() };
        let Content::Straightened { corners_px, .. } = background.content else { unreachable!() };
        let map = background.map().unwrap();
        let [a, b, c, d] = corners_px.map(|p| map.apply(p).unwrap());
        assert!(a.distance(background.origin) < 1e-9);
        assert!((b - a).distance(dvec2(0.0, 600.0)) < 1e-9);
        assert!((d - a).distance(dvec2(-400.0, 0.0)) < 1e-9);
        assert!((c - b).distance(dvec2(-400.0, 0.0)) < 1e-9);
    }

    #[test]
    fn the_name_is_the_files_where_there_is_none() {
        assert_eq!(photo().title(), "bay.jpg");
        assert_eq!(Background { name: "Floor".into(), ..photo() }.title(), "Floor");
    }
}
