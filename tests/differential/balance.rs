//! Balances, by bounded least squares and linear programmes.

use crate::Result;
use crate::table::{Answers, Row, Table, Within};
use cordial::balance::{Answer, Concession, Line, Request, Share, Target};
use cordial::matter::{Composition, Constituent, Ingredient};
use cordial::units::{Checked, Choice, MassFraction, Portion};
use std::sync::Arc;

pub const TABLES: &[Table] = &[Table {
    name: "balance/requests",
    within: Within::Absolute(2e-5),
    reason: "the same optimum; in percentage points and shares of the batch, to where both methods stop",
    run: |row| {
        let request = request(row)?;
        let answer = request.solve()?;
        let is = if answer.is_met() { "met" } else { "missed" };
        let misses = (0..5).map(|at| answer.reached.get(at).map_or(0.0, |reached| 100.0 * reached.miss));
        let columns = ["miss_1", "miss_2", "miss_3", "miss_4", "miss_5"];
        let mut answers: Answers = columns.into_iter().zip(misses.map(Into::into)).collect();
        answers.push(("is", is.into()));
        answers.push(("first_gives_way_by", first_gives_way(&request, &answer).unwrap_or(-1.0).into()));
        answers.push(("filler", filler(&answer).unwrap_or(-1.0).into()));
        Ok(answers)
    },
}];

/// How far the first target would have to give way, in percentage points.
fn first_gives_way(request: &Request, answer: &Answer) -> Option<f64> {
    let first = request.targets.first()?;
    answer.concessions.iter().find_map(|concession| match concession {
        Concession::Target { target: 0, to } => Some(100.0 * (to.base() - to.base().clamp(first.least.base(), first.most.base())).abs()),
        _ => None,
    })
}

fn filler(answer: &Answer) -> Option<f64> {
    answer.concessions.iter().find_map(|concession| match concession {
        Concession::Filler { mass } => Some(mass.base()),
        _ => None,
    })
}

/// A batch of one kilogram from ingredients that are closed with inert matter.
fn request(row: &Row) -> Result<Request> {
    let shares: Vec<Share> =
        row.text("shares")?.split(';').map(|key| Share::from_key(key).ok_or("no share")).collect::<std::result::Result<_, _>>()?;
    let (least, most) = (row.numbers("least")?, row.numbers("most")?);
    let mut request = Request::named("drawn", Portion::from_base(1.0)?);
    for (number, (held, (least, most))) in row.text("held")?.split('|').zip(least.into_iter().zip(most)).enumerate() {
        let mut parts = Vec::new();
        for (share, held) in shares.iter().zip(held.split(';')) {
            parts.push((pure(*share)?, MassFraction::from_base(held.parse()?)?));
        }
        let rest = 1.0 - parts.iter().map(|(_, share)| share.base()).sum::<f64>();
        parts.push((Constituent::Inert, MassFraction::nearest(rest)));
        let line = Line::of(Arc::new(Ingredient::declared(format!("drawn-{number}"), Composition::new(parts)?)));
        let line = line.at_least(Portion::from_base(least)?);
        request = request.with_line(if most < 1.0 { line.at_most(Portion::from_base(most)?) } else { line });
    }
    for (share, ((from, to), weight)) in
        shares.iter().zip(row.numbers("from")?.into_iter().zip(row.numbers("to")?).zip(row.numbers("weights")?))
    {
        request =
            request.with_target(Target::between(*share, MassFraction::from_base(from)?, MassFraction::from_base(to)?).weighing(weight));
    }
    Ok(request)
}

fn pure(share: Share) -> Result<Constituent> {
    match share {
        Share::Water => Ok(Constituent::Water),
        Share::Sugars => Ok(Constituent::Sucrose),
        Share::CocoaButter => Ok(Constituent::CocoaButter),
        Share::MilkFat => Ok(Constituent::MilkFat),
        Share::FatFreeCocoa => Ok(Constituent::FatFreeCocoa),
        Share::Ethanol => Ok(Constituent::Ethanol),
        _ => Err("the table knows no such share".into()),
    }
}
