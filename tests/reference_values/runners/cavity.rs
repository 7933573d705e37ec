use super::{Runner, number};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::models::cavity::Cavity;
use cordial::units::quantity::{cubic_meter, ratio};
use cordial::units::{Checked, Dimension, Distance, Space, Thickness};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("cavity-volume", |row| Ok(Found::exact(cavity(row)?.volume().get::<cubic_meter>(), Dimension::Volume))),
    ("shell-volume", |row| {
        let wall = row.get::<Thickness>("wall")?.quantity();
        Ok(Found::exact(cavity(row)?.shell_volume(wall)?.get::<cubic_meter>(), Dimension::Volume))
    }),
    ("headroom-share", |row| {
        let (cavity, left) = (cavity(row)?, row.get::<Thickness>("headroom")?.quantity());
        number(1.0 - (cavity.volume_below(left) / cavity.volume()).get::<ratio>())
    }),
];

fn cavity(row: &Row) -> Result<Cavity> {
    row.within("cavity", |cavity| {
        let length = |key: &str| cavity.get::<Distance>(key);
        Ok(match cavity.text("shape")? {
            "hemisphere" => Cavity::hemisphere(length("diameter")?),
            "segment" if cavity.value("sphere").is_some() => {
                let (sphere, depth) = (length("sphere")?.base(), length("depth")?);
                Cavity::segment(Distance::from_base(2.0 * (depth.base() * (sphere - depth.base())).sqrt())?, depth)?
            }
            "segment" => Cavity::segment(length("diameter")?, length("depth")?)?,
            "cone-frustum" => Cavity::cone_frustum(length("opening")?, length("base")?, length("depth")?)?,
            "pyramid-frustum" => Cavity::pyramid_frustum([length("opening")?; 2], [length("base")?; 2], length("depth")?)?,
            "box" => Cavity::cuboid(length("length")?, length("width")?, length("depth")?),
            "measured" => Cavity::measured(cavity.get::<Space>("volume")?, length("opening")?, length("depth")?)?,
            shape => return Err(format!("no cavity has the shape `{shape}`").into()),
        })
    })
}
