//! One Newton step: a block-tridiagonal system of 2×2 blocks with three closure columns.
//!
//! Unknown are unit tangents `t_1 … t_{N−1}` at equal steps `h = 1/N` of a line of length 1. Energy
//! `E = Σ|t_{i+1} − t_i|²/(2h)`, closure `C = h(t_0/2 + t_1 + … + t_N/2) − chord`, force `F` its
//! multiplier. Each tangent moves in its own 2-frame; the Hessian on the sphere has the diagonal
//! `−(g_i·t_i) I` with `g_i = −(t_{i−1} + t_{i+1})/h − hF` (Absil, Mahony & Sepulchre,
//! "Optimization algorithms on matrix manifolds", 2008, ch. 5).

use glam::DVec3;

use super::span::frame;

/// One tangent's share of the eliminated system.
#[derive(Debug, Clone, Copy, Default)]
struct Row {
    /// Frame of the tangent.
    e: [DVec3; 2],
    /// Inverse of the pivot block: xx, xy, yy.
    inv: [f64; 3],
    /// Multiplier of the row before it.
    l: [[f64; 2]; 2],
    /// Closure columns, eliminated.
    u: [DVec3; 2],
    /// Right-hand side, eliminated.
    w: [f64; 2],
    /// Right-hand side as it was: the gradient in the frame.
    b: [f64; 2],
    /// The step.
    x: [f64; 2],
}

impl Row {
    /// What stands before the first row: it takes nothing away.
    const NONE: Self = Self {
        e: [DVec3::ZERO; 2],
        inv: [0.0; 3],
        l: [[0.0; 2]; 2],
        u: [DVec3::ZERO; 2],
        w: [0.0; 2],
        b: [0.0; 2],
        x: [0.0; 2],
    };
}

/// Working memory of the steps.
#[derive(Debug, Clone, Default)]
pub(super) struct System {
    rows: Vec<Row>,
    schur: Symmetric3,
    free: DVec3,
}

/// What an elimination tells.
#[derive(Debug, Clone, Copy)]
pub(super) struct Inertia {
    /// Negative pivots of the whole system, closure included: three at a minimum.
    pub(super) negative: u32,
}

/// A symmetric 3×3 matrix.
#[derive(Debug, Clone, Copy, Default)]
struct Symmetric3 {
    xx: f64,
    xy: f64,
    xz: f64,
    yy: f64,
    yz: f64,
    zz: f64,
}

/// What the step is taken from.
#[derive(Debug, Clone, Copy)]
pub(super) struct At<'a> {
    /// Tangents, ends included.
    pub(super) t: &'a [DVec3],
    /// One for each tangent: 1 for the discrete energy; see `correct.rs`.
    pub(super) weights: &'a [f64],
    pub(super) force: DVec3,
    /// Added to the diagonal, in units of `h`.
    pub(super) shift: f64,
}

impl System {
    /// Eliminates the system at `at`. None where a pivot vanishes.
    pub(super) fn eliminate(&mut self, at: At<'_>) -> Option<Inertia> {
        let n = at.t.len() - 1;
        let (h, inv_h) = (1.0 / n as f64, n as f64);
        self.rows.resize(n - 1, Row::default());
        let mut schur = Symmetric3::default();
        let (mut free, mut negative) = (DVec3::ZERO, 0);
        let pull = h * at.force;
        let mut before = Row::NONE;
        let mut scale = 0.0;
        let triples = at.t.windows(3).zip(at.weights.windows(3));
        for (row, (t, w)) in self.rows.iter_mut().zip(triples) {
            let (e1, e2) = frame(t[1]);
            let g = -inv_h * (w[0] * t[0] + w[2] * t[2]) - pull;
            let d = h * at.shift - g.dot(t[1]);
            let b = [e1.dot(g), e2.dot(g)];
            let p = &before;
            let o = [
                [scale * p.e[0].dot(e1), scale * p.e[0].dot(e2)],
                [scale * p.e[1].dot(e1), scale * p.e[1].dot(e2)],
            ];
            let [a, c, f] = p.inv;
            let l = [
                [o[0][0] * a + o[1][0] * c, o[0][0] * c + o[1][0] * f],
                [o[0][1] * a + o[1][1] * c, o[0][1] * c + o[1][1] * f],
            ];
            let dxx = d - (l[0][0] * o[0][0] + l[0][1] * o[1][0]);
            let dxy = -(l[0][0] * o[0][1] + l[0][1] * o[1][1]);
            let dyy = d - (l[1][0] * o[0][1] + l[1][1] * o[1][1]);
            let u = [
                h * e1 - (l[0][0] * p.u[0] + l[0][1] * p.u[1]),
                h * e2 - (l[1][0] * p.u[0] + l[1][1] * p.u[1]),
            ];
            let v = [
                -b[0] - (l[0][0] * p.w[0] + l[0][1] * p.w[1]),
                -b[1] - (l[1][0] * p.w[0] + l[1][1] * p.w[1]),
            ];
            let det = dxx * dyy - dxy * dxy;
            if det.is_nan() || det.abs() <= 1e-30 {
                return None;
            }
            negative += if det < 0.0 { 1 } else { 2 * u32::from(dxx + dyy < 0.0) };
            let r = 1.0 / det;
            let inv = [dyy * r, -dxy * r, dxx * r];
            let q = [inv[0] * u[0] + inv[1] * u[1], inv[1] * u[0] + inv[2] * u[1]];
            schur.add(u[0], q[0]);
            schur.add(u[1], q[1]);
            free += q[0] * v[0] + q[1] * v[1];
            before = Row { e: [e1, e2], inv, l, u, w: v, b, x: [0.0; 2] };
            *row = before;
            scale = -0.5 * inv_h * (w[1] + w[2]);
        }
        self.schur = schur;
        self.free = free;
        let negative = negative + schur.positive()?;
        Some(Inertia { negative })
    }

    /// The step that brings the closure error `c` to nothing: fills in the rotations and gives the
    /// change of the force. None where the closure cannot be moved.
    pub(super) fn solve(&mut self, c: DVec3) -> Option<DVec3> {
        let change = -self.schur.solve(c + self.free)?;
        let (mut l, mut y) = ([[0.0; 2]; 2], [0.0; 2]);
        for row in self.rows.iter_mut().rev() {
            let v = [row.w[0] + row.u[0].dot(change), row.w[1] + row.u[1].dot(change)];
            let [a, b, c] = row.inv;
            y = [
                a * v[0] + b * v[1] - (l[0][0] * y[0] + l[1][0] * y[1]),
                b * v[0] + c * v[1] - (l[0][1] * y[0] + l[1][1] * y[1]),
            ];
            row.x = y;
            l = row.l;
        }
        change.is_finite().then_some(change)
    }

    /// The greatest rotation of the step.
    pub(super) fn largest(&self) -> f64 {
        let square = |row: &Row| row.x[0] * row.x[0] + row.x[1] * row.x[1];
        self.rows.iter().map(square).fold(0.0, f64::max).sqrt()
    }

    /// Takes out of the step what turns the whole line about `axis`.
    pub(super) fn without_turn(&mut self, axis: DVec3) {
        let turn = |row: &Row| {
            let moved = axis.cross(row.e[0].cross(row.e[1]));
            [row.e[0].dot(moved), row.e[1].dot(moved)]
        };
        let (mut along, mut square) = (0.0, 0.0);
        for row in &self.rows {
            let m = turn(row);
            along += m[0] * row.x[0] + m[1] * row.x[1];
            square += m[0] * m[0] + m[1] * m[1];
        }
        if square <= 0.0 {
            return;
        }
        let share = along / square;
        for row in &mut self.rows {
            let m = turn(row);
            row.x[0] -= share * m[0];
            row.x[1] -= share * m[1];
        }
    }

    /// Gradient of the Lagrangian along the step.
    pub(super) fn slope(&self) -> f64 {
        self.rows.iter().map(|row| row.b[0] * row.x[0] + row.b[1] * row.x[1]).sum()
    }

    /// `to` is `from` moved by `share` of the step. The ends stay.
    pub(super) fn apply(&self, from: &[DVec3], share: f64, to: &mut [DVec3]) {
        let inner = from.len() - 1;
        for ((row, t), out) in self.rows.iter().zip(&from[1..inner]).zip(&mut to[1..inner]) {
            let moved = *t + share * (row.x[0] * row.e[0] + row.x[1] * row.e[1]);
            *out = moved * moved.length_squared().sqrt().recip();
        }
    }

    /// Replaces the right-hand side by the last step (for inverse iteration) and eliminates again
    /// with the pivots that stand; `scale` is applied to it.
    pub(super) fn feed_back(&mut self, scale: f64) {
        let mut free = DVec3::ZERO;
        let mut before = [0.0; 2];
        for row in &mut self.rows {
            let l = row.l;
            let v = [
                row.x[0] * scale - (l[0][0] * before[0] + l[0][1] * before[1]),
                row.x[1] * scale - (l[1][0] * before[0] + l[1][1] * before[1]),
            ];
            row.w = v;
            let q = [
                row.inv[0] * row.u[0] + row.inv[1] * row.u[1],
                row.inv[1] * row.u[0] + row.inv[2] * row.u[1],
            ];
            free += q[0] * v[0] + q[1] * v[1];
            before = v;
        }
        self.free = free;
    }

    /// Sets the step to `along` seen in each frame, with a weight that tells the two halves apart:
    /// a start that no symmetry of the shape can annul.
    pub(super) fn start_with(&mut self, along: DVec3) {
        let n = self.rows.len() as f64;
        for (i, row) in self.rows.iter_mut().enumerate() {
            let s = (i as f64 + 1.0) / (n + 1.0);
            let weight = 1.0 + 0.7 * (7.0 * s).sin() + 0.4 * s;
            row.x = [weight * row.e[0].dot(along), weight * row.e[1].dot(along)];
        }
    }
}

impl Symmetric3 {
    #[inline]
    fn add(&mut self, a: DVec3, b: DVec3) {
        self.xx += a.x * b.x;
        self.xy += a.x * b.y;
        self.xz += a.x * b.z;
        self.yy += a.y * b.y;
        self.yz += a.y * b.z;
        self.zz += a.z * b.z;
    }

    fn determinant(&self) -> f64 {
        self.xx * (self.yy * self.zz - self.yz * self.yz)
            - self.xy * (self.xy * self.zz - self.yz * self.xz)
            + self.xz * (self.xy * self.yz - self.yy * self.xz)
    }

    /// How many eigenvalues are positive: the changes of sign in the characteristic polynomial
    /// (Descartes; exact where all roots are real). None where it is not finite.
    fn positive(&self) -> Option<u32> {
        let trace = self.xx + self.yy + self.zz;
        let minors = self.xx * self.yy - self.xy * self.xy + self.xx * self.zz - self.xz * self.xz
            + self.yy * self.zz
            - self.yz * self.yz;
        let coefficients = [1.0, -trace, minors, -self.determinant()];
        if !coefficients.iter().all(|c| c.is_finite()) {
            return None;
        }
        let changes = coefficients.windows(2).filter(|pair| pair[0] * pair[1] < 0.0).count();
        Some(changes as u32)
    }

    fn solve(&self, r: DVec3) -> Option<DVec3> {
        let cx = DVec3::new(
            self.yy * self.zz - self.yz * self.yz,
            self.yz * self.xz - self.xy * self.zz,
            self.xy * self.yz - self.yy * self.xz,
        );
        let det = self.xx * cx.x + self.xy * cx.y + self.xz * cx.z;
        let cy = DVec3::new(
            cx.y,
            self.xx * self.zz - self.xz * self.xz,
            self.xy * self.xz - self.xx * self.yz,
        );
        let cz = DVec3::new(cx.z, cy.z, self.xx * self.yy - self.xy * self.xy);
        let solved = DVec3::new(cx.dot(r), cy.dot(r), cz.dot(r)) / det;
        solved.is_finite().then_some(solved)
    }
}
