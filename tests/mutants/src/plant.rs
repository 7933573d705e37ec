//! Reads the list of mutants and plants them in a copy of the tree.

use crate::Result;
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use syn::visit::{self, Visit};

/// Changes the order, and with it the sample.
const SEED: &str = "1";

#[derive(Deserialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Place {
    line: usize,
    /// From 1, in characters.
    column: usize,
}

#[derive(Deserialize, Clone, Copy)]
struct Span {
    start: Place,
    end: Place,
}

#[derive(Deserialize)]
struct Function {
    return_type: String,
}

#[derive(Deserialize)]
pub struct Mutant {
    pub name: String,
    file: String,
    function: Option<Function>,
    span: Span,
    replacement: String,
    /// The name without line and column, counted where several are alike: stays when lines above it change.
    #[serde(skip)]
    pub id: String,
    /// Whether it can stand beside the original in one build.
    #[serde(skip)]
    pub can_be_switched: bool,
    /// Whether it makes something from another that cannot be made so. The compiler would look for a way through all units there are, and
    /// may not come back.
    #[serde(skip)]
    pub is_hopeless: bool,
}

impl Mutant {
    /// The module path that unit tests of the same file share, `models::water`.
    pub fn module(&self) -> String {
        let inside = self.file.trim_start_matches("src/").trim_end_matches(".rs").trim_end_matches("/mod");
        inside.split('/').take(2).collect::<Vec<_>>().join("::")
    }
}

/// All mutants in an order that depends on their names and the seed only, so that the first N are a random sample.
pub fn listed(list: &Path) -> Result<Vec<Mutant>> {
    let mut mutants: Vec<Mutant> = serde_json::from_str(&fs::read_to_string(list)?)?;
    let mut alike: BTreeMap<String, usize> = BTreeMap::new();
    let mut files: BTreeMap<String, Vec<Body>> = BTreeMap::new();
    let root = std::env::current_dir()?;
    let sources: Vec<String> = self::files(&root.join("src"))?.iter().map(fs::read_to_string).collect::<std::io::Result<_>>()?;
    let says = |words: &[&str]| sources.iter().flat_map(|text| text.lines()).any(|line| words.iter().all(|word| line.contains(word)));
    for mutant in &mut mutants {
        let words = mutant.name.split_once(": ").map_or("", |(_, words)| words);
        let name = format!("{}: {words}", mutant.file);
        let count = alike.entry(name.clone()).or_default();
        *count += 1;
        mutant.id = format!("{name} #{count}");
        if !files.contains_key(&mutant.file) {
            files.insert(mutant.file.clone(), bodies(&fs::read_to_string(root.join(&mutant.file))?)?);
        }
        let opaque = mutant.function.as_ref().is_none_or(|function| function.return_type.contains("impl "));
        mutant.is_hopeless = made_from(&mutant.replacement).is_some_and(|made| {
            let own = says(&[&format!("struct {made}")]);
            own && !["From<", "FromIterator<"].iter().any(|conversion| says(&[conversion, &format!("for {made}")]))
        });
        mutant.can_be_switched = !opaque && innermost(&files[&mutant.file], mutant.span).is_some_and(|body| !body.constant);
    }
    mutants.sort_by_key(|mutant| hash(&mutant.id));
    Ok(mutants)
}

/// The type that a replacement makes by `From` or `FromIterator`.
fn made_from(replacement: &str) -> Option<&str> {
    let before = ["::from(", "::from_iter("].iter().find_map(|call| replacement.split_once(call))?.0;
    before.rsplit(|c: char| !(c.is_alphanumeric() || c == '_')).next().filter(|name| !name.is_empty())
}

/// FNV-1a with the finisher of MurmurHash3.
fn hash(id: &str) -> u64 {
    let words = SEED.bytes().chain(id.bytes());
    let mut hash = words.fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
    for factor in [0xff51_afd7_ed55_8ccd, 0xc4ce_b9fe_1a85_ec53] {
        hash = (hash ^ (hash >> 33)).wrapping_mul(factor);
    }
    hash ^ (hash >> 33)
}

/// A function's body, its braces left out.
struct Body {
    span: Span,
    constant: bool,
}

fn bodies(text: &str) -> Result<Vec<Body>> {
    struct Finder(Vec<Body>);
    impl Finder {
        fn add(&mut self, signature: &syn::Signature, block: &syn::Block) {
            let (open, close) = (block.brace_token.span.open().end(), block.brace_token.span.close().start());
            let place = |at: proc_macro2::LineColumn| Place { line: at.line, column: at.column + 1 };
            self.0.push(Body { span: Span { start: place(open), end: place(close) }, constant: signature.constness.is_some() });
        }
    }
    impl<'a> Visit<'a> for Finder {
        fn visit_item_fn(&mut self, item: &'a syn::ItemFn) {
            self.add(&item.sig, &item.block);
            visit::visit_item_fn(self, item);
        }
        fn visit_impl_item_fn(&mut self, item: &'a syn::ImplItemFn) {
            self.add(&item.sig, &item.block);
            visit::visit_impl_item_fn(self, item);
        }
        fn visit_trait_item_fn(&mut self, item: &'a syn::TraitItemFn) {
            if let Some(block) = &item.default {
                self.add(&item.sig, block);
            }
            visit::visit_trait_item_fn(self, item);
        }
    }
    let mut finder = Finder(Vec::new());
    finder.visit_file(&syn::parse_file(text)?);
    Ok(finder.0)
}

fn innermost(bodies: &[Body], span: Span) -> Option<&Body> {
    bodies.iter().filter(|body| body.span.start <= span.start && span.end <= body.span.end).max_by_key(|body| body.span.start)
}

/// The byte at a place.
fn offset(text: &str, place: Place) -> usize {
    let line: usize = text.split_inclusive('\n').take(place.line - 1).map(str::len).sum();
    line + text[line..].chars().take(place.column - 1).map(char::len_utf8).sum::<usize>()
}

fn replaced(text: &str, span: Span, by: &str) -> String {
    // A space keeps `- -` from becoming another token.
    format!("{} {by} {}", &text[..offset(text, span.start)], &text[offset(text, span.end)..])
}

/// Every file of a folder that may not be there yet, and of those in it.
fn files(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    if folder.exists() {
        for entry in fs::read_dir(folder)? {
            let path = entry?.path();
            files.extend(if path.is_dir() { self::files(&path)? } else { vec![path] });
        }
    }
    Ok(files)
}

/// A copy of the tree under the target folder.
pub struct Tree {
    root: PathBuf,
    copy: PathBuf,
}

impl Tree {
    pub fn copy(root: &Path, copy: &Path) -> Result<Self> {
        fs::create_dir_all(copy)?;
        for part in ["tests", "examples", "benches", "reference-values", "Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md"] {
            let there = copy.join(part);
            if there.is_dir() {
                fs::remove_dir_all(&there)?;
            }
            if root.join(part).exists() && !Command::new("cp").arg("-pr").arg(root.join(part)).arg(copy).status()?.success() {
                return Err(format!("{part} could not be copied").into());
            }
        }
        let tree = Self { root: root.to_owned(), copy: copy.to_owned() };
        tree.write_sources(BTreeMap::new())?;
        Ok(tree)
    }

    /// The sources, some of them planted. What stays as it is is not touched, so that it is not built again.
    fn write_sources(&self, mut planted: BTreeMap<PathBuf, String>) -> Result<()> {
        let mut there = files(&self.copy.join("src"))?;
        for file in files(&self.root.join("src"))? {
            let inside = file.strip_prefix(&self.root)?;
            let text = match planted.remove(inside) {
                Some(text) => text.into_bytes(),
                None => fs::read(&file)?,
            };
            let copy = self.copy.join(inside);
            there.retain(|other| *other != copy);
            if fs::read(&copy).is_ok_and(|known| known == text) {
                continue;
            }
            fs::create_dir_all(copy.parent().ok_or("a file has a folder")?)?;
            fs::write(copy, text)?;
        }
        there.iter().try_for_each(|gone| Ok(fs::remove_file(gone)?))
    }

    pub fn path(&self) -> &Path {
        &self.copy
    }

    /// Puts every mutated body beside its original; the variable `CORDIAL_MUTANT` holds the place in the list, from 1, of the one that runs.
    pub fn plant(&self, mutants: &[&Mutant]) -> Result<Planted> {
        let mut files: BTreeMap<&str, Vec<(usize, &Mutant)>> = BTreeMap::new();
        for (index, mutant) in mutants.iter().enumerate() {
            files.entry(&mutant.file).or_default().push((index + 1, mutant));
        }
        let (mut lines, mut texts) = (BTreeMap::new(), BTreeMap::new());
        for (file, mutants) in files {
            let text = fs::read_to_string(self.root.join(file))?;
            let bodies = bodies(&text)?;
            // By the byte where their body begins, last first, so that what comes before stays where it is.
            let mut by_body: BTreeMap<usize, (Span, Vec<(usize, &Mutant)>)> = BTreeMap::new();
            for (number, mutant) in mutants {
                let body = innermost(&bodies, mutant.span).ok_or("a mutant without a body")?;
                by_body.entry(offset(&text, body.span.start)).or_insert((body.span, Vec::new())).1.push((number, mutant));
            }
            let mut planted = text.clone();
            for (start, (span, mutants)) in by_body.iter().rev() {
                let end = offset(&text, span.end);
                let original = &text[*start..end];
                let mut switch = "\nmatch crate::planted_mutant() {\n".to_owned();
                for (number, mutant) in mutants {
                    let (from, to) = (offset(&text, mutant.span.start), offset(&text, mutant.span.end));
                    let mutated = format!("{} {} {}", &text[*start..from], mutant.replacement, &text[to..end]);
                    let _ = writeln!(switch, "/*{number}*/ {number} => {{\n{mutated}\n}}");
                }
                let _ = write!(switch, "/*0*/ _ => {{\n{original}\n}}\n}}\n");
                planted.replace_range(*start..end, &switch);
            }
            let mut current = 0;
            let owners = planted.lines().map(|line| {
                let mark = line.strip_prefix("/*").and_then(|rest| rest.split_once("*/")).and_then(|(number, _)| number.parse().ok());
                current = mark.unwrap_or(current);
                current
            });
            lines.insert(file.to_owned(), owners.collect());
            texts.insert(PathBuf::from(file), planted);
        }
        let library = fs::read_to_string(self.root.join("src/lib.rs"))?;
        texts.insert(PathBuf::from("src/lib.rs"), library + SWITCH);
        self.write_sources(texts)?;
        Ok(Planted { ids: mutants.iter().map(|mutant| mutant.id.clone()).collect(), lines })
    }

    /// Plants one mutant for good.
    pub fn replace(&self, mutant: &Mutant) -> Result<()> {
        let text = fs::read_to_string(self.root.join(&mutant.file))?;
        Ok(fs::write(self.copy.join(&mutant.file), replaced(&text, mutant.span, &mutant.replacement))?)
    }

    pub fn restore(&self, mutant: &Mutant) -> Result<()> {
        Ok(fs::write(self.copy.join(&mutant.file), fs::read_to_string(self.root.join(&mutant.file))?)?)
    }
}

const SWITCH: &str = r#"
#[doc(hidden)]
pub(crate) fn planted_mutant() -> u32 {
    static PLANTED: std::sync::LazyLock<u32> =
        std::sync::LazyLock::new(|| std::env::var("CORDIAL_MUTANT").ok().and_then(|number| number.parse().ok()).unwrap_or(0));
    *PLANTED
}
"#;

/// Where the mutants stand in the planted files.
pub struct Planted {
    ids: Vec<String>,
    /// Of each line of a file, the number of the mutant that it belongs to.
    lines: BTreeMap<String, Vec<usize>>,
}

/// What the compiler has against mutants.
#[derive(Default)]
pub struct Blame {
    /// They do not compile.
    pub unviable: BTreeSet<String>,
    /// One of those in a body does not compile, but the compiler points at the function's head: each must be built alone.
    pub suspect: BTreeSet<String>,
}

impl Blame {
    pub fn is_empty(&self) -> bool {
        self.unviable.is_empty() && self.suspect.is_empty()
    }
}

impl Planted {
    /// The mutants in which the compiler found errors, by file and line.
    pub fn blamed(&self, errors: &[(String, usize, String)]) -> Result<Blame> {
        let mut blame = Blame::default();
        for (file, line, message) in errors {
            let after = self.lines.get(file).map_or(&[][..], |lines| &lines[line - 1..]);
            let id = |number: &usize| self.ids[number - 1].clone();
            match after.first() {
                Some(0) => {
                    let body = after.iter().skip_while(|number| **number == 0).take_while(|number| **number != 0);
                    let before = blame.suspect.len();
                    blame.suspect.extend(body.map(id));
                    if blame.suspect.len() == before && !after.iter().any(|number| *number != 0) {
                        return Err(format!("{file}:{line}, outside every mutant: {message}").into());
                    }
                }
                Some(number) => drop(blame.unviable.insert(id(number))),
                None => return Err(format!("{file}:{line}, where nothing was planted: {message}").into()),
            }
        }
        Ok(blame)
    }
}
