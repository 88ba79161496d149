//! Points, arcs and stripes for the drawings. Figures only; no SVG elements, no words.

/// A point on a circle; degrees clockwise from the top.
pub(crate) fn on_circle(centre: (f64, f64), radius: f64, degrees: f64) -> (f64, f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    (centre.0 + radius * sin, centre.1 - radius * cos)
}

/// The path of an arc between two such angles, clockwise, as a line of short pieces.
pub(crate) fn arc(centre: (f64, f64), radius: f64, from: f64, to: f64) -> String {
    const PIECE: f64 = 4.0;
    let pieces = ((to - from).abs() / PIECE).ceil().max(1.0) as u32;
    let at = |n: u32| {
        on_circle(
            centre,
            radius,
            from + (to - from) * f64::from(n) / f64::from(pieces),
        )
    };
    polyline((0..=pieces).map(at))
}

/// An open path through the points.
pub(crate) fn polyline(points: impl IntoIterator<Item = (f64, f64)>) -> String {
    let mut path = String::new();
    for (x, y) in points {
        path.push(if path.is_empty() { 'M' } else { 'L' });
        path.push_str(&format!("{x:.1} {y:.1} "));
    }
    path
}

/// A closed path through the points.
pub(crate) fn polygon(points: impl IntoIterator<Item = (f64, f64)>) -> String {
    polyline(points) + "Z"
}

/// Stripes at 45° inside a rectangle, cut at its edges, so that no pattern ids are needed.
pub(crate) fn hatch(x: f64, y: f64, width: f64, height: f64, step: f64) -> String {
    let mut path = String::new();
    let mut at = step / 2.0;
    while at < width + height && step > 0.0 {
        // The line u + v = at, u to the right and v down, within 0..width and 0..height.
        let (u0, v0) = if at < height {
            (0.0, at)
        } else {
            (at - height, height)
        };
        let (u1, v1) = if at < width {
            (at, 0.0)
        } else {
            (width, at - width)
        };
        path.push_str(&format!(
            "M{:.1} {:.1} L{:.1} {:.1} ",
            x + u0,
            y + v0,
            x + u1,
            y + v1
        ));
        at += step;
    }
    path
}

/// A cross of two strokes round a point.
pub(crate) fn cross(at: (f64, f64), reach: f64) -> String {
    let (x, y) = at;
    format!(
        "M{:.1} {:.1} L{:.1} {:.1} M{:.1} {:.1} L{:.1} {:.1}",
        x - reach,
        y - reach,
        x + reach,
        y + reach,
        x + reach,
        y - reach,
        x - reach,
        y + reach
    )
}

/// A zigzag between two points: a coil spring from the side.
pub(crate) fn coil(from: (f64, f64), to: (f64, f64), turns: u32, reach: f64) -> String {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy).max(1.0);
    let (nx, ny) = (-dy / length * reach, dx / length * reach);
    let pieces = f64::from(turns * 2);
    let mid = (0..turns * 2).map(|n| {
        let part = (f64::from(n) + 0.5) / pieces;
        let way = if n % 2 == 0 { 1.0 } else { -1.0 };
        (from.0 + dx * part + nx * way, from.1 + dy * part + ny * way)
    });
    polyline(std::iter::once(from).chain(mid).chain(std::iter::once(to)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_clock_starts_at_the_top() {
        let (x, y) = on_circle((100.0, 100.0), 50.0, 90.0);
        assert!((x - 150.0).abs() < 1e-9 && (y - 100.0).abs() < 1e-9);
    }

    #[test]
    fn stripes_stay_inside() {
        let path = hatch(10.0, 20.0, 100.0, 30.0, 14.0);
        let figures: Vec<f64> = path
            .split([' ', 'M', 'L'])
            .filter_map(|figure| figure.parse().ok())
            .collect();
        assert!(figures.len() > 16);
        for pair in figures.chunks(2) {
            assert!(
                (10.0..=110.0).contains(&pair[0]) && (20.0..=50.0).contains(&pair[1]),
                "{pair:?}"
            );
        }
    }
}
