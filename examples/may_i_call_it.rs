//! What a chocolate may be called, where, and by what margin: arithmetic on published limits, with the section of each.
//!
//!     cargo run --release --example may_i_call_it                                    # a couverture of our own scenario
//!     cargo run --release --example may_i_call_it -- FILE                            # every chocolate of a document
//!     cargo run --release --example may_i_call_it -- "cocoa-mass=40 g" "cocoa-butter=8 g" "sugar=51.6 g" "lecithin-fluid-soy=0.4 g"

mod terminal;

use cordial::assess::{ChocolateLaw, Part, Quantity};
use cordial::engine::{Bound, Reading, Rule, Verdict};
use cordial::law::{Book, Effect, SalesName};
use cordial::matter::{Ingredient, Known, Larder, Market};
use cordial::rules::law::ChocolateNameNotMet;
use cordial::units::{Checked, Choice, Measure, Portion};
use cordial::{Document, Piece};
use std::error::Error;
use std::process::ExitCode;
use std::sync::Arc;
use terminal::{Arguments, ended, read, say};

/// Made for shine and flow: 46 % of cocoa, two thirds of it cocoa butter.
const OURS: &str = r#"
format = 1
[chocolate.gloss-couverture]
kind = "dark"
cocoa_butter = "31.6 %"
fat_free_cocoa = "14.4 %"
sugar = "53.6 %"
lecithin = { amount = "0.4 %", source = "sunflower" }
cocoa_powder = "0 %"
[[piece]]
name = "bar"
shell = { chocolate = "gloss-couverture" }
"#;
const CAUTION: &str = "This is arithmetic on published limits, no advice: local authorities and a qualified person decide.";

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    match Arguments::read(&[], &[])?.words.as_slice() {
        [] => document(OURS)?,
        lines if lines.iter().all(|line| line.contains('=')) => mixed(lines)?,
        [file] => document(&read(file)?)?,
        _ => return Err("give a document, or ingredients with their masses, such as \"cocoa-mass=40 g\"".into()),
    }
    say!("Perhaps, hardly: met or missed by rows that are recalled here and were not read: look them up.");
    say!("{CAUTION}");
    Ok(())
}

/// The chocolates of shells and caps, each once.
fn document(text: &str) -> Result<(), Box<dyn Error>> {
    let document = Document::parse(text)?;
    let mut told: Vec<Arc<Ingredient>> = Vec::new();
    for piece in document.pieces() {
        let Piece { shell, cap, law, .. } = piece;
        let shell = shell.iter().map(|shell| &shell.chocolate);
        for chocolate in shell.chain(cap.iter().filter_map(|cap| cap.chocolate.as_ref())) {
            if !told.contains(chocolate) {
                tell(&chocolate.title, &ChocolateLaw::of([(&**chocolate, 1.0)]), law);
                told.push(Arc::clone(chocolate));
            }
        }
    }
    if told.is_empty() { Err("no piece of the document has a shell or a cap of chocolate".into()) } else { Ok(()) }
}

/// A chocolate from what goes into it.
fn mixed(lines: &[String]) -> Result<(), Box<dyn Error>> {
    let line = |line: &String| -> Result<(Arc<Ingredient>, f64), Box<dyn Error>> {
        let (name, mass) = line.split_once('=').ok_or("an ingredient and its mass")?;
        let mass = Measure::parse(mass).and_then(|mass| mass.check::<Portion>()).map_err(|error| format!("{line}: {error}"))?;
        Ok((Larder::built_in().get(name.trim())?, mass.base()))
    };
    let parts = lines.iter().map(line).collect::<Result<Vec<_>, _>>()?;
    let counted = ChocolateLaw::of(parts.iter().map(|(ingredient, mass)| (&**ingredient, *mass)));
    tell("this mixture", &counted, &Book::built_in());
    Ok(())
}

fn tell(title: &str, chocolate: &ChocolateLaw, book: &Book) {
    say!("What {title} may be called\n");
    for market in Market::ALL {
        let names = SalesName::ALL.iter().filter(|name| !name.is_of_piece());
        let read: Vec<_> =
            names.map(|name| (*name, readings(chocolate, book, *market, *name))).filter(|(_, read)| !read.is_empty()).collect();
        if read.is_empty() {
            say!("{}: no rows are held here: ask there\n", market.key());
            continue;
        }
        say!("{}:", market.key());
        for (name, read) in read {
            name_line(name, &read, book);
        }
        say!();
    }
}

/// What is read for a name: a reading, or what lacks to tell.
type Read = Result<Reading, Quantity>;

fn readings(chocolate: &ChocolateLaw, book: &Book, market: Market, name: SalesName) -> Vec<Read> {
    let card = ChocolateNameNotMet.card();
    let Some(family) = card.limits.first() else { return Vec::new() };
    let of_name = book.iter().filter(|(_, row)| row.effect == Effect::Name && row.market == market && row.names.holds(name));
    of_name
        .filter_map(|(id, row)| {
            let quantity = Quantity::of_term(row.term);
            let bound = Bound::of_row(id, row)?;
            let value = chocolate.get(row.term).known();
            Some(value.map(|value| Reading::held(card, family, Part::Shell, value, bound)).ok_or(quantity))
        })
        .collect()
}

fn name_line(name: SalesName, read: &[Read], book: &Book) {
    let known = || read.iter().filter_map(|read| read.as_ref().ok());
    let missed: Vec<_> = known().filter(|reading| reading.margin < 0.0 && !reading.is_uncertain()).collect();
    let open: Vec<_> = read
        .iter()
        .filter_map(|read| match read {
            Err(lacking) => Some(*lacking),
            Ok(reading) => reading.is_uncertain().then_some(reading.bound.quantity),
        })
        .collect();
    let recalled = known().any(|reading| reading.verdict == Verdict::Caution && reading.blame() == Verdict::Pass);
    let told =
        if missed.is_empty() { known().min_by(|one, two| share(one).total_cmp(&share(two))).into_iter().collect() } else { missed.clone() };
    let word = match (missed.is_empty(), open.as_slice()) {
        // A row that is recalled neither passes nor fails.
        (false, _) if missed.iter().all(|reading| reading.bound.known == Known::Memory) => "hardly ",
        (false, _) => "NO     ",
        (true, []) if recalled => "perhaps",
        (true, []) => "yes    ",
        (true, _) => "open   ",
    };
    say!("  {word} {}", name.key());
    for quantity in open.iter().filter(|_| missed.is_empty()) {
        say!("          for want of {}", quantity.ask());
    }
    for reading in told {
        let Some(row) = reading.bound.row.and_then(|id| book.row(id)) else { continue };
        let by = Measure::new(reading.difference(reading.margin.abs()).value(), reading.bound.unit);
        let side = if reading.margin < 0.0 { "missed by" } else { "the closest, met by" };
        let value = reading.value.measure(reading.bound.quantity);
        say!(
            "          {} {:.2} {}, limit {} {}, {side} {:.2} {}",
            reading.bound.quantity.words(),
            value.value(),
            value.unit(),
            reading.bound.side.key().replace('-', " "),
            reading.bound_measure(),
            by.value(),
            by.unit()
        );
        say!("          {}", row.citation);
    }
}

/// The margin over the limit, to tell which is closest.
fn share(reading: &Reading) -> f64 {
    if reading.bound.value.abs() > 0.0 { reading.margin / reading.bound.value.abs() } else { f64::INFINITY }
}
