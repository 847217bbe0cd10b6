//! Outlines from DXF files: what is drawn in model space, as polylines.
//!
//! Lines, arcs, circles, polylines with bulges, ellipses and splines are read, and blocks where
//! they are inserted. What else there is (text, hatches, dimensions) is left out and counted.

mod curves;
mod entities;

use std::fs::File;
use std::io::Read;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

use dxf::enums::Units;
use glam::DVec2;

/// A drawing, in its own units.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OutlineDrawing {
    /// Millimetres a unit, where the file says (`$INSUNITS`).
    pub mm_per_unit: Option<f64>,
    /// What is drawn; each of two points at least, all finite.
    pub lines: Vec<Vec<DVec2>>,
    /// What was not read, with how many of each, by name.
    pub left_out: Vec<(String, usize)>,
}

/// Why a drawing cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum OutlineError {
    /// The disk.
    #[error("{0}")]
    Disk(String),
    /// More than any outline has.
    #[error("the drawing is too large: at most {0} are read")]
    TooLarge(String),
    /// Not DXF.
    #[error("not a DXF file that can be read: {0}")]
    NotDxf(String),
    /// Nothing to see.
    #[error("there is nothing in it that can be drawn{0}")]
    Empty(String),
}

/// Files above this are refused, bytes.
const MAX_BYTES: u64 = 64 << 20;

/// Reads a DXF file.
///
/// # Errors
/// [`OutlineError`].
pub fn load_outline(path: &Path, accuracy_mm: f64) -> Result<OutlineDrawing, OutlineError> {
    let disk = |error| OutlineError::Disk(super::mesh::why_not_read(&error));
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(disk)?;
    file.take(MAX_BYTES + 1).read_to_end(&mut bytes).map_err(disk)?;
    outline_from_dxf(&bytes, accuracy_mm)
}

/// The drawing in the bytes of a DXF file, text or binary, R10 to R2018. Its polylines are within
/// `accuracy_mm` of what is drawn, by the file's own unit (millimetres where it has none).
///
/// # Errors
/// [`OutlineError`]; never a panic, whatever the bytes are.
pub fn outline_from_dxf(bytes: &[u8], accuracy_mm: f64) -> Result<OutlineDrawing, OutlineError> {
    if bytes.len() as u64 > MAX_BYTES {
        return Err(OutlineError::TooLarge(format!("{} MiB", MAX_BYTES >> 20)));
    }
    // The reader has panicked on odd files before.
    let read = catch_unwind(AssertUnwindSafe(|| {
        let drawing = dxf::Drawing::load(&mut std::io::Cursor::new(bytes));
        drawing.map(|drawing| outline(&drawing, accuracy_mm))
    }));
    match read {
        Ok(Ok(outline)) => outline,
        Ok(Err(error)) => Err(OutlineError::NotDxf(error.to_string())),
        Err(_) => Err(OutlineError::NotDxf("it is damaged".to_owned())),
    }
}

fn outline(drawing: &dxf::Drawing, accuracy_mm: f64) -> Result<OutlineDrawing, OutlineError> {
    let mm_per_unit = mm_per_unit(drawing.header.default_drawing_units);
    let accuracy = accuracy_mm / mm_per_unit.unwrap_or(1.0);
    let (lines, left_out) = entities::flatten(drawing, accuracy)?;
    if lines.is_empty() {
        let also = left_out_text(&left_out);
        return Err(OutlineError::Empty(
            also.map_or_else(String::new, |told| format!(" ({told})")),
        ));
    }
    Ok(OutlineDrawing { mm_per_unit, lines, left_out })
}

/// "left out: 3 TEXT, 1 HATCH".
pub fn left_out_text(left_out: &[(String, usize)]) -> Option<String> {
    if left_out.is_empty() {
        return None;
    }
    let words: Vec<String> =
        left_out.iter().map(|(name, count)| format!("{count} {name}")).collect();
    Some(format!("left out: {}", words.join(", ")))
}

impl OutlineDrawing {
    /// The box about it; none where it is empty.
    pub fn bounds(&self) -> Option<(DVec2, DVec2)> {
        let mut points = self.lines.iter().flatten();
        let first = *points.next()?;
        Some(points.fold((first, first), |(lo, hi), p| (lo.min(*p), hi.max(*p))))
    }
}

/// The units of `$INSUNITS` that an engine bay may be drawn in, millimetres (exact by definition:
/// 1 in = 25.4 mm, 1 US survey foot = 1200/3937 m).
fn mm_per_unit(unit: Units) -> Option<f64> {
    Some(match unit {
        Units::Inches => 25.4,
        Units::Feet => 304.8,
        Units::Yards => 914.4,
        Units::Millimeters => 1.0,
        Units::Centimeters => 10.0,
        Units::Decimeters => 100.0,
        Units::Meters => 1000.0,
        Units::Mils => 0.0254,
        Units::Microinches => 0.000_025_4,
        Units::Microns => 0.001,
        Units::USSurveyFeet => 1_200_000.0 / 3937.0,
        Units::USSurveyInch => 100_000.0 / 3937.0,
        _ => return None,
    })
}

#[cfg(test)]
mod tests;
