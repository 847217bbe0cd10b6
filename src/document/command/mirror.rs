//! Mirroring about the vehicle's middle plane, Y = 0 (ISO 8855: Y points to the left).

use glam::DVec3;

use super::group::Placing;

/// Left becomes right.
pub(super) struct Mirror;

impl Placing for Mirror {
    fn point(&self, point: DVec3) -> DVec3 {
        self.way(point)
    }

    fn way(&self, way: DVec3) -> DVec3 {
        // 0 − y: a place in the middle plane keeps its plain 0.
        DVec3::new(way.x, 0.0 - way.y, way.z)
    }

    fn mirrors(&self) -> bool {
        true
    }

    fn word(&self) -> &'static str {
        "mirrored"
    }
}
