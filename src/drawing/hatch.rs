//! Hatching as real lines, so that it looks the same on every screen and printer.

use glam::DVec2;

use super::Rect;

/// Lines at 45°, `step_mm` apart, inside closed outlines (even-odd) and inside `within`.
pub(super) fn hatch(outlines: &[Vec<DVec2>], within: Rect, step_mm: f64) -> Vec<Vec<DVec2>> {
    // Along each line x + y is constant; lines are numbered from the paper's corner, so that
    // neighbouring shapes are hatched in step.
    let sums = outlines.iter().flatten().map(|p| p.x + p.y);
    let (low, high) = sums
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), sum| (low.min(sum), high.max(sum)));
    let low = low.max(within.min.x + within.min.y);
    let high = high.min(within.max.x + within.max.y);
    let mut lines = Vec::new();
    if low >= high {
        return lines;
    }
    let (first, last) = ((low / step_mm).ceil() as i64, (high / step_mm).floor() as i64);
    for number in first..=last {
        let sum = number as f64 * step_mm;
        let mut crossings: Vec<f64> =
            outlines.iter().flat_map(|outline| crossings(outline, sum)).collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let from = pair[0].max(within.min.x).max(sum - within.max.y);
            let to = pair[1].min(within.max.x).min(sum - within.min.y);
            if to > from {
                lines.push(vec![DVec2::new(from, sum - from), DVec2::new(to, sum - to)]);
            }
        }
    }
    lines
}

/// The x at which a closed outline crosses the line x + y = sum.
fn crossings(outline: &[DVec2], sum: f64) -> Vec<f64> {
    let mut found = Vec::new();
    for (i, a) in outline.iter().enumerate() {
        let b = outline[(i + 1) % outline.len()];
        let (before, after) = (a.x + a.y - sum, b.x + b.y - sum);
        // Half open, so that a corner on the line counts once.
        if (before < 0.0) != (after < 0.0) {
            found.push(a.x + (b.x - a.x) * before / (before - after));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hatching_stays_inside_the_shape_and_the_panel() {
        let square = Rect::from_size(DVec2::ZERO, DVec2::splat(10.0));
        let panel = Rect::from_size(DVec2::ZERO, DVec2::new(6.0, 20.0));
        let lines = hatch(&[square.outline()], panel, 1.0);
        assert_eq!(lines.len(), 15);
        for point in lines.iter().flatten() {
            assert!(square.grown(1e-9).contains(*point) && panel.grown(1e-9).contains(*point));
        }
    }

    #[test]
    fn a_shape_outside_the_panel_is_not_hatched() {
        let square = Rect::from_size(DVec2::splat(50.0), DVec2::splat(10.0));
        let panel = Rect::from_size(DVec2::ZERO, DVec2::splat(20.0));
        assert!(hatch(&[square.outline()], panel, 1.0).is_empty());
        assert!(hatch(&[], panel, 1.0).is_empty());
    }
}
