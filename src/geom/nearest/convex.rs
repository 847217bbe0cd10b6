//! Signed distance from a point to convex obstacles, with its slope.

use glam::DVec3;

/// A convex obstacle in its own axes.
pub(super) trait Convex {
    /// The signed distance from `p` and its gradient: a unit vector, or zero where `p` lies on an obstacle
    /// without an inside. The distance is convex, so that the plane through it lies below it
    /// everywhere; where it has a kink, one of the gradients beside the kink serves.
    fn distance(&self, p: DVec3) -> (f64, DVec3);
}

/// A box about the origin along the axes.
#[derive(Debug, Clone, Copy)]
pub(super) struct BoxField {
    pub(super) half: DVec3,
}

impl Convex for BoxField {
    #[inline]
    fn distance(&self, p: DVec3) -> (f64, DVec3) {
        let over = p.abs() - self.half;
        let sign = |x: f64| if x < 0.0 { -1.0 } else { 1.0 };
        let outside = over.max(DVec3::ZERO);
        let square = outside.length_squared();
        if square > 0.0 {
            let distance = square.sqrt();
            let way = DVec3::new(sign(p.x), sign(p.y), sign(p.z));
            return (distance, outside * way / distance);
        }
        if over.x >= over.y && over.x >= over.z {
            (over.x, DVec3::X * sign(p.x))
        } else if over.y >= over.z {
            (over.y, DVec3::Y * sign(p.y))
        } else {
            (over.z, DVec3::Z * sign(p.z))
        }
    }
}

/// A cylinder with flat ends about the Z axis, its middle at the origin.
#[derive(Debug, Clone, Copy)]
pub(super) struct CylinderField {
    pub(super) half: f64,
    pub(super) radius: f64,
}

impl Convex for CylinderField {
    #[inline]
    fn distance(&self, p: DVec3) -> (f64, DVec3) {
        let from_axis = (p.x * p.x + p.y * p.y).sqrt();
        let radial = if from_axis > 0.0 {
            DVec3::new(p.x / from_axis, p.y / from_axis, 0.0)
        } else {
            DVec3::X
        };
        let axial = if p.z < 0.0 { DVec3::NEG_Z } else { DVec3::Z };
        let (beside, beyond) = (from_axis - self.radius, p.z.abs() - self.half);
        let (out_r, out_z) = (beside.max(0.0), beyond.max(0.0));
        let square = out_r * out_r + out_z * out_z;
        if square > 0.0 {
            let distance = square.sqrt();
            return (distance, (radial * out_r + axial * out_z) / distance);
        }
        if beside >= beyond { (beside, radial) } else { (beyond, axial) }
    }
}

/// A straight of any length, without thickness.
#[derive(Debug, Clone, Copy)]
pub(super) struct SegmentField {
    pub(super) start: DVec3,
    pub(super) direction: DVec3,
    pub(super) length: f64,
}

impl Convex for SegmentField {
    #[inline]
    fn distance(&self, p: DVec3) -> (f64, DVec3) {
        let along = (p - self.start).dot(self.direction).clamp(0.0, self.length);
        away(p - self.start - self.direction * along)
    }
}

/// A triangle, without thickness.
#[derive(Debug, Clone, Copy)]
pub(super) struct TriangleField {
    pub(super) corners: [DVec3; 3],
}

impl Convex for TriangleField {
    #[inline]
    fn distance(&self, p: DVec3) -> (f64, DVec3) {
        away(p - nearest_of_triangle(p, self.corners))
    }
}

#[inline]
fn away(step: DVec3) -> (f64, DVec3) {
    let distance = step.length();
    if distance > 0.0 { (distance, step / distance) } else { (0.0, DVec3::ZERO) }
}

/// The nearest point of a triangle, by the regions of its plane about corners, sides and face
/// (Ericson, Real-Time Collision Detection, §5.1.5). Of a triangle squeezed to a line or a point, the
/// nearest point of its sides.
fn nearest_of_triangle(p: DVec3, [a, b, c]: [DVec3; 3]) -> DVec3 {
    let (ab, ac, ap) = (b - a, c - a, p - a);
    let (d1, d2) = (ab.dot(ap), ac.dot(ap));
    if d1 <= 0.0 && d2 <= 0.0 {
        return a;
    }
    let bp = p - b;
    let (d3, d4) = (ab.dot(bp), ac.dot(bp));
    if d3 >= 0.0 && d4 <= d3 {
        return b;
    }
    let cp = p - c;
    let (d5, d6) = (ab.dot(cp), ac.dot(cp));
    if d6 >= 0.0 && d5 <= d6 {
        return c;
    }
    let on_ab = d1 * d4 - d3 * d2;
    if on_ab <= 0.0 && d1 >= 0.0 && d3 <= 0.0 {
        return a + ab * share(d1, d1 - d3);
    }
    let on_ac = d5 * d2 - d1 * d6;
    if on_ac <= 0.0 && d2 >= 0.0 && d6 <= 0.0 {
        return a + ac * share(d2, d2 - d6);
    }
    let on_bc = d3 * d6 - d5 * d4;
    if on_bc <= 0.0 && d4 - d3 >= 0.0 && d5 - d6 >= 0.0 {
        return b + (c - b) * share(d4 - d3, (d4 - d3) + (d5 - d6));
    }
    let whole = on_ab + on_ac + on_bc;
    if whole > 0.0 { a + ab * (on_ac / whole) + ac * (on_ab / whole) } else { a }
}

fn share(part: f64, whole: f64) -> f64 {
    if whole > 0.0 { part / whole } else { 0.0 }
}
