//! The shell and the cap: a chocolate, and what is stirred into it.

use super::MOST_LINES;
use crate::matter::pantry::Pantry;
use crate::matter::{Emulsifier, EmulsifierForm, EmulsifierKind, sheet};
use crate::piece::{Cap, Seed, Shell, StirredIn};
use crate::units::Duration;
use crate::units::reader::{Field, Items, TableReader};
use smallvec::SmallVec;

/// How often a cavity is cast or a cap is poured, at most.
const COATS: u32 = 9;

pub(super) fn shell(table: &TableReader<'_>, pantry: &Pantry) -> Option<Shell> {
    let chocolate = pantry.chocolate(table.required("chocolate", "the name of a chocolate, such as `chocolate = \"dark-couverture-64\"`"));
    let thickness = table.optional("thickness").measure();
    let drained = table.optional("drained").table(drained);
    let casts = table.optional("casts").whole(1..=COATS).unwrap_or(1);
    let temper = table.optional("temper").choice();
    let seed = table.optional("seed").table(seed);
    let stirred_in = stirred_in(&table.optional("added"), pantry);
    let emulsifiers = emulsifiers(&table.optional("emulsifier"));
    Some(Shell { chocolate: chocolate?, thickness, drained, casts, temper, seed, stirred_in, emulsifiers })
}

pub(super) fn cap(table: &TableReader<'_>, pantry: &Pantry) -> Option<Cap> {
    Some(Cap {
        thickness: table.optional("thickness").measure(),
        coats: table.optional("coats").whole(1..=COATS).unwrap_or(1),
        chocolate: pantry.chocolate(table.optional("chocolate")),
        temper: table.optional("temper").choice(),
        stirred_in: stirred_in(&table.optional("added"), pantry),
        emulsifiers: emulsifiers(&table.optional("emulsifier")),
    })
}

fn drained(table: &TableReader<'_>) -> Option<Duration> {
    table.required("time", "how long it drains, such as `time = \"10 s\"`").measure()
}

fn seed(table: &TableReader<'_>) -> Option<Seed> {
    let kind = table.required("kind", "`kind = \"cocoa-butter\"` or `\"tempered-chocolate\"`").choice();
    let dose = table.required("dose", "its share of the chocolate's weight, such as `dose = \"1 %\"`").measure();
    let at = table.optional("at").measure();
    Some(Seed { kind: kind?, dose: dose?, at })
}

fn stirred_in(lines: &Field<'_>, pantry: &Pantry) -> Vec<StirredIn> {
    let line = |table: &TableReader<'_>| {
        let ingredient =
            pantry.ingredient(table.required("ingredient", "the name of what is stirred in, such as `ingredient = \"cocoa-butter\"`"));
        let dose = table.required("dose", "its share of the chocolate's weight, such as `dose = \"2 %\"`").measure();
        Some(StirredIn { ingredient: ingredient?, dose: dose? })
    };
    lines.tables(Items { what: "added", numbered: true, named: false, most: MOST_LINES }, line).unwrap_or_default()
}

fn emulsifiers(lines: &Field<'_>) -> SmallVec<[Emulsifier; 2]> {
    let line = |table: &TableReader<'_>| {
        let kind =
            table.required("kind", "`kind = \"lecithin\"`, `\"pgpr\"`, `\"ammonium-phosphatides\"` or `\"sorbitan-tristearate\"`").choice();
        // Only lecithin comes in forms that must not be mixed up.
        let usual = (kind != Some(EmulsifierKind::Lecithin)).then_some(EmulsifierForm::Fluid);
        sheet::emulsifier(table, kind, "dose", usual)
    };
    lines.tables(Items { what: "emulsifier", numbered: true, named: false, most: MOST_LINES }, line).unwrap_or_default().into()
}
