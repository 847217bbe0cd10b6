//! Sleeves over a hose.

use super::{Extra, Nature};

/// A sleeve over a stretch of hose. It protects from what it is rated for; it has no thickness here, and raises no
/// rating of the hose's own.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sleeve {
    /// Shown to the user; may be empty.
    pub name: String,
    /// Where it begins on the drawn centre line, from `E_A`; at end A where absent.
    pub from_mm: Option<f64>,
    /// Where it ends; at end B where absent.
    pub to_mm: Option<f64>,
    /// The temperature that its manufacturer rates it to; decides nothing, for no obstacle says how hot it is.
    pub temperature_c: Option<f64>,
    /// What it protects from: hot, moving or sharp obstacles.
    pub rated_for: Vec<Nature>,
    /// Unknown keys.
    pub extra: Extra,
}

impl Sleeve {
    /// Its name; what it is where it has none.
    pub fn shown_name(&self) -> &str {
        super::name_or(&self.name, "sleeve")
    }

    /// Where it begins and ends on a drawn centre line of this length.
    pub fn range_mm(&self, centreline_mm: f64) -> (f64, f64) {
        (self.from_mm.unwrap_or(0.0), self.to_mm.unwrap_or(centreline_mm))
    }

    /// The same sleeve on the hose with its ends swapped.
    #[must_use]
    pub fn swapped(self, centreline_mm: f64) -> Self {
        let mirrored = |mm: f64| (centreline_mm - mm).max(0.0);
        Self { from_mm: self.to_mm.map(mirrored), to_mm: self.from_mm.map(mirrored), ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn swapped_ends_leave_it_where_it_is() {
        let sleeve = Sleeve { from_mm: Some(20.0), to_mm: Some(61.0), ..Sleeve::default() };
        assert_eq!(sleeve.clone().swapped(500.0).range_mm(500.0), (439.0, 480.0));
        assert_eq!(sleeve.clone().swapped(500.0).swapped(500.0), sleeve);
        let open = Sleeve { from_mm: Some(20.0), ..Sleeve::default() };
        assert_eq!(open.swapped(500.0).range_mm(500.0), (0.0, 480.0));
    }
}
