//! Between the points of a table, whose abscissae rise. Outside, the end points hold.

/// Straight lines from point to point; zero for no points.
pub(super) fn linear(points: &[(f64, f64)], at: f64) -> f64 {
    between(points, at, |_, from, to, _| from.1 + slope(from, to) * (at - from.0))
}

/// Cubics whose slope in each point is that of the parabola through it and its neighbours; zero for no points.
pub(super) fn cubic(points: &[(f64, f64)], at: f64) -> f64 {
    between(points, at, |before, from, to, after| {
        let (width, chord) = (to.0 - from.0, slope(from, to));
        let left = before.map(|before| (slope(before, from), from.0 - before.0));
        let right = after.map(|after| (slope(to, after), after.0 - to.0));
        // Weighted by the opposite widths; at an end of the table the parabola of the inner point goes on.
        let inside = |(other, other_width): (f64, f64)| (width * other + other_width * chord) / (width + other_width);
        let (start, end) = match (left.map(inside), right.map(inside)) {
            (Some(start), Some(end)) => (start, end),
            (Some(start), None) => (start, 2.0 * chord - start),
            (None, Some(end)) => (2.0 * chord - end, end),
            (None, None) => (chord, chord),
        };
        let t = (at - from.0) / width;
        from.1 + (at - from.0) * (chord + (1.0 - t) * ((1.0 - t) * (start - chord) - t * (end - chord)))
    })
}

type Point = (f64, f64);

/// The interval `at` lies in, with the points before and after it.
fn between(points: &[Point], at: f64, inside: impl Fn(Option<Point>, Point, Point, Option<Point>) -> f64) -> f64 {
    let upper = points.partition_point(|(x, _)| *x < at);
    let point = |index: Option<usize>| index.and_then(|index| points.get(index)).copied();
    match (point(upper.checked_sub(1)), point(Some(upper))) {
        (Some(from), Some(to)) => inside(point(upper.checked_sub(2)), from, to, point(Some(upper + 1))),
        (Some((_, y)), None) | (None, Some((_, y))) => y,
        (None, None) => 0.0,
    }
}

fn slope(from: Point, to: Point) -> f64 {
    (to.1 - from.1) / (to.0 - from.0)
}

#[cfg(test)]
#[allow(clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn parabola(x: f64) -> f64 {
        3.0 - 2.0 * x + 0.5 * x * x
    }

    #[test]
    fn a_line_is_a_line_and_a_parabola_a_parabola() {
        let line = [0.0, 1.0, 4.0, 5.0].map(|x| (x, 2.0 * x - 1.0));
        let curve = [0.0, 1.0, 4.0, 5.0].map(|x| (x, parabola(x)));
        for x in [0.0, 0.3, 1.0, 2.2, 4.9, 5.0] {
            assert_relative_eq!(linear(&line, x), 2.0 * x - 1.0, max_relative = 1e-12);
            assert_relative_eq!(cubic(&curve, x), parabola(x), max_relative = 1e-12);
        }
        assert_relative_eq!(cubic(&line[..2], 0.5), 0.0, epsilon = 1e-12);
    }

    #[test]
    fn the_ends_hold() {
        let points = [(1.0, 5.0), (2.0, 7.0)];
        assert_eq!((linear(&points, 0.0), linear(&points, 3.0)), (5.0, 7.0));
        assert_eq!((cubic(&points, 0.0), cubic(&[], 3.0)), (5.0, 0.0));
    }
}
