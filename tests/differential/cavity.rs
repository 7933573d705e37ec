//! Cavities, in millimetres.

use crate::Result;
use crate::table::{Answers, Row, SAME, SAME_EQUATION, Table};
use cordial::models::cavity::Cavity;
use cordial::units::quantity::{Area, Length, Volume, cubic_meter, meter, millimeter, square_meter};
use cordial::units::{Checked, Distance};

pub const TABLES: &[Table] = &[
    Table {
        name: "cavity/hemispheres",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let cavity = Cavity::hemisphere(distance(row, "diameter")?);
            let inner = cavity.lined(length(row, "wall")?)?;
            let cap = inner.volume() - inner.volume_below(length(row, "cap")?);
            let mut answers = with_shell(row, &cavity)?;
            answers.push(("cap_volume", cubic(cap).into()));
            Ok(answers)
        },
    },
    Table {
        name: "cavity/segments",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let cavity = Cavity::segment(distance(row, "diameter")?, distance(row, "depth")?)?;
            let mut answers = with_shell(row, &cavity)?;
            answers.push(("opening", cavity.opening().get::<millimeter>().into()));
            Ok(answers)
        },
    },
    Table {
        name: "cavity/cone_frusta",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| with_shell(row, &Cavity::cone_frustum(distance(row, "opening")?, distance(row, "base")?, distance(row, "depth")?)?),
    },
    Table {
        name: "cavity/boxes",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| Ok(open(&Cavity::cuboid(distance(row, "length")?, distance(row, "width")?, distance(row, "depth")?))),
    },
    Table {
        name: "cavity/pyramid_frusta",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let opening = [distance(row, "length")?, distance(row, "width")?];
            let base = [distance(row, "base_length")?, distance(row, "base_width")?];
            with_shell(row, &Cavity::pyramid_frustum(opening, base, distance(row, "depth")?)?)
        },
    },
];

fn distance(row: &Row, column: &str) -> Result<Distance> {
    Ok(Distance::from_base(length(row, column)?.get::<meter>())?)
}

fn length(row: &Row, column: &str) -> Result<Length> {
    Ok(Length::new::<millimeter>(row.number(column)?))
}

fn cubic(volume: Volume) -> f64 {
    volume.get::<cubic_meter>() * 1e9
}

fn square(area: Area) -> f64 {
    area.get::<square_meter>() * 1e6
}

fn open(cavity: &Cavity) -> Answers {
    vec![("volume", cubic(cavity.volume()).into()), ("wetted", square(cavity.wetted_area()).into())]
}

fn with_shell(row: &Row, cavity: &Cavity) -> Result<Answers> {
    let mut answers = open(cavity);
    answers.push(("shell", cubic(cavity.shell_volume(length(row, "wall")?)?).into()));
    Ok(answers)
}
