#![allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]

use super::*;
use crate::units::Checked;
use crate::units::quantity::millimeter;
use approx::assert_relative_eq;
use proptest::prelude::*;

fn distance(millimeters: f64) -> Distance {
    Distance::from_base(millimeters / 1000.0).unwrap()
}

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn mm3(volume: Volume) -> f64 {
    volume.get::<cubic_meter>() * 1e9
}

/// From the sphere's radius, as the published rows give it.
fn segment(radius: f64, depth: f64) -> Cavity {
    Cavity::segment(distance(2.0 * (depth * (2.0 * radius - depth)).sqrt()), distance(depth)).unwrap()
}

fn cone(opening_radius: f64, base_radius: f64, depth: f64) -> Cavity {
    Cavity::cone_frustum(distance(2.0 * opening_radius), distance(2.0 * base_radius), distance(depth)).unwrap()
}

fn pyramid(opening: [f64; 2], base: [f64; 2], depth: f64) -> Cavity {
    Cavity::pyramid_frustum(opening.map(distance), base.map(distance), distance(depth)).unwrap()
}

/// The cavity as someone would describe it who knows its volume, opening and depth only.
fn as_measured(cavity: &Cavity) -> Cavity {
    let [opening, depth] = [cavity.opening(), cavity.depth()].map(|length| Distance::try_from(length).unwrap());
    Cavity::measured(cavity.volume().try_into().unwrap(), opening, depth).unwrap()
}

/// Rows T7001 to T7020: volumes in mm³ by adaptive quadrature, to the five digits given.
#[test]
fn integrated_volumes() {
    let shell = |cavity: Cavity, wall: f64| mm3(cavity.shell_volume(mm(wall)).unwrap());
    let headroom = |cavity: Cavity, left: f64| 1.0 - (cavity.volume_below(mm(left)) / cavity.volume()).value;
    for (row, found, expected, tolerance) in [
        ("T7001", mm3(Cavity::hemisphere(distance(28.0)).volume()), 5747.02, 1e-5),
        ("T7002", shell(Cavity::hemisphere(distance(28.0)), 2.0), 2127.91, 1e-5),
        ("T7003", mm3(Cavity::hemisphere(distance(25.0)).volume()), 4090.62, 1e-5),
        ("T7004", shell(Cavity::hemisphere(distance(25.0)), 1.5), 1302.98, 1e-5),
        ("T7007", mm3(segment(18.0, 12.0).volume()), 6333.45, 1e-5),
        ("T7008", shell(segment(18.0, 12.0), 2.0), 2354.1, 1e-5),
        ("T7011", mm3(cone(15.0, 11.0, 16.0).volume()), 8561.89, 1e-5),
        ("T7012", shell(cone(15.0, 11.0, 16.0), 2.0), 3011.23, 1e-5),
        ("T7015", mm3(pyramid([28.0; 2], [22.0; 2], 16.0).volume()), 10048.0, 1e-5),
        ("T7016", shell(pyramid([28.0; 2], [22.0; 2], 16.0), 2.0), 3661.03, 1e-5),
        ("T7019", headroom(Cavity::hemisphere(distance(24.0)), 2.0), 0.24769, 1e-4),
        ("T7020", headroom(Cavity::hemisphere(distance(24.0)), 1.5), 0.18652, 1e-4),
    ] {
        assert!((found / expected - 1.0).abs() <= tolerance, "{row}: {found}, expected {expected}");
    }
}

/// Archimedes: the surface of a segment equals the circle whose radius reaches from its pole to its rim.
#[test]
fn wall_of_a_segment() {
    let bowl = Cavity::segment(distance(34.0), distance(15.0)).unwrap();
    assert_relative_eq!(bowl.wetted_area().get::<square_meter>() * 1e6, PI * (17.0f64.powi(2) + 15.0f64.powi(2)), max_relative = 1e-12);
}

/// The inner solid slice by slice: in each, the widest half-section that keeps its distance from a wall given by two points.
#[test]
fn offsets_against_slices() {
    /// Half of a side of the inner section at a depth below the rim.
    fn half_side(opening: f64, base: f64, depth: f64, wall: f64, below_rim: f64) -> f64 {
        let [(x1, z1), (x2, z2)] = [(opening / 2.0, 0.0), (base / 2.0, depth)];
        let distance = |x: f64| ((z2 - z1) * (x1 - x) - (x2 - x1) * (z1 - below_rim)) / (x2 - x1).hypot(z2 - z1);
        let (mut low, mut high) = (0.0, opening / 2.0);
        if distance(low) < wall {
            return 0.0;
        }
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if distance(middle) >= wall { low = middle } else { high = middle }
        }
        low
    }
    // The last two walls meet in a ridge and in a tip before they reach the bottom.
    for (opening, base, depth, wall) in [
        ([28.0, 28.0], [22.0, 22.0], 16.0, 2.0),
        ([40.0, 22.0], [30.0, 18.0], 12.0, 3.0),
        ([30.0, 30.0], [30.0, 30.0], 15.0, 2.5),
        ([40.0, 20.0], [30.0, 2.0], 15.0, 3.0),
        ([30.0, 30.0], [1.0, 1.0], 18.0, 2.0),
    ] {
        let slices = 4000;
        let section =
            |z: f64| 4.0 * opening.iter().zip(base).map(|(opening, base)| half_side(*opening, base, depth, wall, z)).product::<f64>();
        let thickness = (depth - wall) / f64::from(slices);
        let inner: f64 = (0..slices).map(|n| (f64::from(n) + 0.5) * thickness).map(|z| section(z) * thickness).sum();
        let lined = pyramid(opening, base, depth).lined(mm(wall)).unwrap();
        assert_relative_eq!(mm3(lined.volume()), inner, max_relative = 1e-6);
        if opening[0] == opening[1] {
            let lined = cone(opening[0] / 2.0, base[0] / 2.0, depth).lined(mm(wall)).unwrap();
            assert_relative_eq!(mm3(lined.volume()), inner * PI / 4.0, max_relative = 1e-6);
        }
    }
}

/// What `Cavity::is_exact` promises for the named shapes when only volume, opening and depth are known.
#[test]
fn error_of_measured_cavities() {
    let (mut level, mut round, mut square) = (0.0f64, 0.0f64, 0.0f64);
    let mut describe = |exact: Cavity, shell: &mut f64| {
        let measured = as_measured(&exact);
        for wall in [1.0, 2.0, 3.0].map(mm) {
            let off = measured.shell_volume(wall).unwrap() / exact.shell_volume(wall).unwrap();
            *shell = shell.max((off.value - 1.0).abs());
        }
        for poured in [0.05, 0.1, 0.25, 0.5, 0.75, 0.9].map(|share| exact.volume() * share) {
            let off = (measured.level_of(poured).unwrap() - exact.level_of(poured).unwrap()) / exact.depth();
            level = level.max(off.value.abs());
        }
    };
    for (width, depth) in [20.0, 30.0, 40.0].into_iter().flat_map(|width| [10.0, 15.0, 20.0].map(|depth| (width, depth))) {
        for narrower in [0.0, 2.0, 4.0, 6.0, 8.0] {
            describe(cone(width / 2.0, (width - narrower) / 2.0, depth), &mut round);
            describe(pyramid([width; 2], [width - narrower; 2], depth), &mut square);
        }
        if let Ok(bowl) = Cavity::segment(distance(width), distance(depth)) {
            describe(bowl, &mut round);
        }
    }
    for (found, promised) in [(level, 0.06), (round, 0.09), (square, 0.17)] {
        assert!(found <= promised && found > 0.9 * promised, "{found}, promised {promised}");
    }
}

#[test]
fn messages_say_what_to_change() {
    let message = |cavity: Result<Cavity, CavityError>| cavity.unwrap_err().to_string();
    assert_eq!(
        message(Cavity::segment(distance(30.0), distance(18.0))),
        "a segment `18 mm` deep under an opening of `30 mm` could not be released: make it at most 15 mm deep"
    );
    assert_eq!(
        message(Cavity::cone_frustum(distance(25.0), distance(28.0), distance(15.0))),
        "a base of `28 mm` under an opening of `25 mm` could not be released: make the base no wider than the opening"
    );
    assert_eq!(
        message(Cavity::measured(Space::from_base(12e-6).unwrap(), distance(20.0), distance(15.0))),
        "a cavity of that opening and depth holds between 1.57079633 mL and 4.71238898 mL, found `12 mL`: measure all three again"
    );
    for wall in [-1.0, 14.0, 15.0, f64::NAN, f64::INFINITY] {
        assert!(Cavity::hemisphere(distance(28.0)).lined(mm(wall)).is_err());
    }
    assert_eq!(
        message(Cavity::hemisphere(distance(28.0)).lined(mm(14.0))),
        "a wall in this cavity must be at least 0 mm and thinner than 14 mm to leave a space, found `14 mm`"
    );
}

/// The same length in two units may differ in its last bit: that makes no undercut.
#[test]
fn rounding_makes_no_undercut() {
    let up = |length: Distance| Distance::from_base(length.base().next_up()).unwrap();
    let width = distance(30.0);
    assert!(Cavity::segment(width, up(distance(15.0))).is_ok());
    assert!(Cavity::cone_frustum(width, up(width), distance(15.0)).unwrap().lined(mm(2.0)).is_ok());
}

fn any_distance() -> impl Strategy<Value = f64> {
    1.0f64..=300.0
}

fn any_cavity() -> impl Strategy<Value = Cavity> {
    let part = || 0.0f64..=1.0;
    let least = |whole: f64, share: f64| (whole * share).max(1.0);
    prop_oneof![
        any_distance().prop_map(|diameter| Cavity::hemisphere(distance(diameter))),
        (2.0f64..=300.0, part())
            .prop_map(move |(diameter, share)| { Cavity::segment(distance(diameter), distance(least(diameter / 2.0, share))).unwrap() }),
        (any_distance(), part(), any_distance()).prop_map(move |(opening, share, depth)| cone(
            opening / 2.0,
            least(opening, share) / 2.0,
            depth
        )),
        ([any_distance(), any_distance()], [part(), part()], any_distance()).prop_map(move |([a, b], [m, n], depth)| pyramid(
            [a, b],
            [least(a, m), least(b, n)],
            depth
        )),
        (any_distance(), any_distance(), any_distance()).prop_map(|(a, b, depth)| Cavity::cuboid(
            distance(a),
            distance(b),
            distance(depth)
        )),
        (any_distance(), 1.0 / 3.0..=1.0, any_distance()).prop_filter_map("a volume that fits no mould", |(opening, share, depth)| {
            let volume = PI / 4.0 * opening * opening * depth * share * 1e-9;
            Cavity::measured(Space::from_base(volume).ok()?, distance(opening), distance(depth)).ok()
        }),
    ]
}

/// An inner cavity is a cavity: what holds for moulds must hold for what shells leave, tips and ridges included.
fn any_lined() -> impl Strategy<Value = Cavity> {
    (any_cavity(), 0.0f64..0.99).prop_map(|(cavity, share)| cavity.lined(meters(cavity.solid().thickest_wall() * share)).unwrap())
}

proptest! {
    #[test]
    fn levels(cavity in prop_oneof![any_cavity(), any_lined()], share in 0.0f64..=1.0, other in 0.0f64..=1.0) {
        let depth = cavity.depth();
        prop_assert_eq!(cavity.volume_below(mm(0.0)), cavity.volume());
        prop_assert_eq!(cavity.volume_below(depth), Volume::default());
        prop_assert!(cavity.level_of(cavity.volume()).unwrap() <= depth * 1e-15);
        prop_assert!(cavity.level_of(cavity.volume() * 1.000001).is_none());
        prop_assert!((cavity.level_of(Volume::default()).unwrap() - depth).abs() <= depth * 1e-12);

        let (high, low) = (depth * share.min(other), depth * share.max(other));
        prop_assert!(cavity.volume_below(high) >= cavity.volume_below(low));
        prop_assert!(cavity.area_at(high) >= cavity.area_at(low));
        prop_assert!((cavity.level_of(cavity.volume_below(low)).unwrap() - low).abs() <= depth * 1e-9);
    }

    /// Near the bottom, in a tip above all, what counts is the height above it.
    #[test]
    fn last_drops(cavity in prop_oneof![any_cavity(), any_lined()], decades in 0.0f64..6.0) {
        let depth = cavity.depth();
        let height = depth * 10f64.powf(-decades);
        let back = depth - cavity.level_of(cavity.volume_below(depth - height)).unwrap();
        prop_assert!((back - height).abs() <= height * 1e-9 + depth * 1e-15, "{back:?} {height:?}");
    }

    #[test]
    fn sections_add_up(cavity in prop_oneof![any_cavity(), any_lined()], share in 0.0f64..0.9) {
        let slices = 2000;
        let filled = cavity.depth() * (1.0 - share);
        let levels = (0..slices).map(|n| cavity.depth() - filled * ((f64::from(n) + 0.5) / f64::from(slices)));
        let sum: Volume = levels.map(|level| cavity.area_at(level) * filled / f64::from(slices)).sum();
        assert_relative_eq!(mm3(sum), mm3(cavity.volume_below(cavity.depth() * share)), max_relative = 1e-5);
    }

    #[test]
    fn shells(cavity in prop_oneof![any_cavity(), any_lined()], share in 0.001f64..0.999, other in 0.001f64..0.999) {
        let thickest = meters(cavity.solid().thickest_wall());
        let (thin, thick) = (thickest * share.min(other), thickest * share.max(other));
        let (wide, narrow) = (cavity.lined(thin).unwrap(), cavity.lined(thick).unwrap());
        prop_assert!(narrow.volume() <= wide.volume() && wide.volume() < cavity.volume());
        prop_assert!(wide.depth() <= cavity.depth() - thin && wide.opening() < cavity.opening());
        assert_relative_eq!(mm3(cavity.shell_volume(thin).unwrap() + wide.volume()), mm3(cavity.volume()), max_relative = 1e-12);

        let back = cavity.wall_of(cavity.shell_volume(thick).unwrap()).unwrap();
        prop_assert!((back - thick).abs() <= thick * 1e-9, "{back:?} {thick:?}");
        prop_assert!(cavity.wall_of(cavity.volume()).is_none());
        prop_assert!(cavity.lined(thickest * 1.000001).is_err());
        prop_assert_eq!(cavity.wall_of(Volume::default()).unwrap(), mm(0.0));
    }

    /// Steiner: a thin shell takes the wetted area times its wall.
    #[test]
    fn thin_shells(cavity in prop_oneof![any_cavity(), any_lined()]) {
        let wall = meters(cavity.solid().thickest_wall() * 1e-6);
        let area = cavity.shell_volume(wall).unwrap() / wall;
        assert_relative_eq!(area.value, cavity.wetted_area().value, max_relative = 1e-4);
    }

    /// Two thin shells are one thick shell.
    #[test]
    fn shells_add_up(cavity in any_cavity(), share in 0.01f64..0.98, part in 0.0f64..=1.0) {
        if cavity.is_exact() {
            let wall = meters(cavity.solid().thickest_wall() * share);
            let twice = cavity.lined(wall * part).unwrap().lined(wall * (1.0 - part)).unwrap();
            assert_relative_eq!(mm3(twice.volume()), mm3(cavity.lined(wall).unwrap().volume()), max_relative = 1e-9);
        }
    }

    #[test]
    fn always_a_number(cavity in any_cavity(), number in proptest::num::f64::ANY) {
        let length = meters(number);
        prop_assert!(cavity.area_at(length).value > -f64::MIN_POSITIVE && cavity.volume_below(length) >= Volume::default());
        if let Some(level) = cavity.level_of(cubic_meters(number)) {
            prop_assert!(level >= mm(0.0) && level <= cavity.depth());
        }
        if let Some(wall) = cavity.wall_of(cubic_meters(number)) {
            prop_assert!(wall >= mm(0.0) && wall <= cavity.depth());
        }
        if let Ok(inner) = cavity.lined(length) {
            prop_assert!(inner.volume() <= cavity.volume() && inner.volume() > Volume::default());
        }
    }
}

/// What a wall may be at most is where the space it leaves vanishes.
#[test]
fn the_thickest_wall_leaves_nothing() {
    let millimeters = |value: f64| Distance::from_base(value / 1000.0).unwrap();
    let measured = |milliliters: f64| Cavity::measured(Space::from_base(milliliters * 1e-6).unwrap(), millimeters(28.0), millimeters(14.0));
    let frustum =
        Cavity::pyramid_frustum([millimeters(30.0), millimeters(26.0)], [millimeters(20.0), millimeters(18.0)], millimeters(15.0));
    for cavity in [measured(3.2), measured(5.0), measured(8.0), frustum, Ok(Cavity::hemisphere(millimeters(28.0)))] {
        let cavity = cavity.unwrap();
        let thickest = cavity.solid().thickest_wall();
        assert!(cavity.lined(meters(0.999 * thickest)).is_ok(), "{cavity:?}");
        assert!(cavity.lined(meters(1.001 * thickest)).is_err(), "{cavity:?}");
    }
}
