//! What the crate shows to the outside, read from its sources: public items under the paths by which they can be named. What macros of the
//! crate declare is listed as it is written in the call, without its comments; derived and foreign implementations are told by name only.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use syn::spanned::Spanned;
use syn::{Attribute, ImplItem, Item, TraitItem, UseTree, Visibility};

/// A public item, field or method.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry {
    /// By which it can be named.
    pub path: String,
    /// Its declaration, on one line.
    pub words: String,
    /// Its documentation.
    pub docs: String,
    /// Whether it can be called.
    pub is_function: bool,
}

/// A module: its items, and whether it is behind a feature.
struct Module {
    items: Vec<Item>,
    feature: Option<String>,
}

type Names = Vec<String>;
type Blocks<'a> = BTreeMap<(Names, String), Vec<&'a syn::ItemImpl>>;

/// A crate's modules by path, the root's being empty.
pub struct Surface {
    modules: BTreeMap<Names, Module>,
}

/// Where a public name stands and what it names.
struct Shown {
    public: Names,
    home: Names,
    name: String,
    feature: Option<String>,
}

impl Surface {
    pub fn of(src: &Path) -> Self {
        let mut surface = Self { modules: BTreeMap::new() };
        surface.read(&src.join("lib.rs"), src, Vec::new(), None);
        surface
    }

    fn read(&mut self, file: &Path, folder: &Path, path: Names, feature: Option<String>) {
        let text = fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let items = syn::parse_file(&text).unwrap_or_else(|error| panic!("{}: {error}", file.display())).items;
        for item in &items {
            let Item::Mod(module) = item else { continue };
            if is_test(&module.attrs) {
                continue;
            }
            assert!(module.content.is_none(), "{}: a module inside a file", file.display());
            let name = module.ident.to_string();
            let (flat, nested) = (folder.join(format!("{name}.rs")), folder.join(&name).join("mod.rs"));
            let found: PathBuf = if flat.exists() { flat } else { nested };
            let inside = feature_of(&module.attrs).or_else(|| feature.clone());
            self.read(&found, &folder.join(&name), joined(&path, &name), inside);
        }
        self.modules.insert(path, Module { items, feature });
    }

    /// Every public entry, by path.
    pub fn entries(&self) -> Vec<Entry> {
        let mut shown = Vec::new();
        self.show(&[], &[], &mut BTreeSet::new(), &mut shown);
        let blocks = self.blocks();
        let mut entries = Vec::new();
        for shown in &shown {
            self.declare(shown, &blocks, &mut entries);
        }
        entries.sort();
        entries.dedup();
        entries
    }

    /// All that can be named in a module under its public path.
    fn show(&self, home: &[String], public: &[String], seen: &mut BTreeSet<(Names, Names)>, shown: &mut Vec<Shown>) {
        if !seen.insert((home.to_vec(), public.to_vec())) {
            return;
        }
        let module = &self.modules[home];
        for item in &module.items {
            let feature = feature_of(attributes(item)).or_else(|| module.feature.clone());
            match item {
                Item::Mod(inner) if is_public(&inner.vis) && !is_test(&inner.attrs) => {
                    let name = inner.ident.to_string();
                    self.show(&joined(home, &name), &joined(public, &name), seen, shown);
                }
                Item::Use(reexport) if is_public(&reexport.vis) => {
                    for (path, name) in leaves(&reexport.tree, Vec::new()) {
                        self.reexport(home, public, &path, name, feature.clone(), seen, shown);
                    }
                }
                Item::Macro(call) if call.ident.is_none() || has(&call.attrs, "macro_export") => {
                    for name in declared(item) {
                        // A macro that is exported stands at the root of the crate.
                        let public = if call.ident.is_some() { &[] } else { public };
                        shown.push(Shown { public: joined(public, &name), home: home.to_vec(), name, feature: feature.clone() });
                    }
                }
                _ if visibility(item).is_some_and(is_public) => {
                    for name in declared(item) {
                        shown.push(Shown { public: joined(public, &name), home: home.to_vec(), name, feature: feature.clone() });
                    }
                }
                _ => {}
            }
        }
    }

    #[expect(clippy::too_many_arguments, reason = "a step of one recursion")]
    fn reexport(
        &self,
        home: &[String],
        public: &[String],
        path: &[String],
        alias: String,
        feature: Option<String>,
        seen: &mut BTreeSet<(Names, Names)>,
        shown: &mut Vec<Shown>,
    ) {
        let Some((inside, name)) = self.resolve(home, path) else {
            // Another crate's.
            shown.push(Shown { public: joined(public, &alias), home: Vec::new(), name: path.join("::"), feature });
            return;
        };
        if name == "*" {
            self.show(&inside, public, seen, shown);
        } else if self.modules.contains_key(&joined(&inside, &name)) {
            self.show(&joined(&inside, &name), &joined(public, &alias), seen, shown);
        } else {
            let (home, name) = self.origin(&inside, &name);
            shown.push(Shown { public: joined(public, &alias), home, name, feature });
        }
    }

    /// The module and the name in it that a path of a `use` means; none for another crate's.
    fn resolve(&self, home: &[String], path: &[String]) -> Option<(Names, String)> {
        let (name, way) = path.split_last()?;
        let mut at = match way.first().map(String::as_str) {
            Some("crate") => Vec::new(),
            Some("self" | "super") | None => home.to_vec(),
            Some(first) if self.modules.contains_key(&joined(home, first)) => home.to_vec(),
            Some(_) => return None,
        };
        for step in way {
            match step.as_str() {
                "crate" | "self" => {}
                "super" => drop(at.pop()),
                step => at.push(step.to_owned()),
            }
        }
        self.modules.contains_key(&at).then_some((at, name.clone()))
    }

    /// Where a name is declared, re-exports followed.
    fn origin(&self, home: &[String], name: &str) -> (Names, String) {
        let module = &self.modules[home];
        if !module.items.iter().any(|item| declared(item).iter().any(|own| own == name)) {
            for item in &module.items {
                let Item::Use(reexport) = item else { continue };
                for (path, alias) in leaves(&reexport.tree, Vec::new()) {
                    if alias == name
                        && let Some((inside, original)) = self.resolve(home, &path)
                    {
                        return self.origin(&inside, &original);
                    }
                }
            }
        }
        (home.to_vec(), name.to_owned())
    }

    /// The lines of one shown name: the item, its fields or cases, its methods, the traits it implements.
    fn declare(&self, shown: &Shown, blocks: &Blocks, entries: &mut Vec<Entry>) {
        let path = format!("cordial::{}", shown.public.join("::"));
        let mark = shown.feature.as_ref().map_or(String::new(), |feature| format!(" [feature {feature}]"));
        let mut add = |path: &str, words: String, attrs: &[Attribute], is_function: bool| {
            entries.push(Entry { path: path.to_owned(), words: words + &mark, docs: docs(attrs), is_function });
        };
        let Some(item) = self.modules[&shown.home].items.iter().find(|item| declared(item).contains(&shown.name)) else {
            add(&path, format!("use {}", shown.name), &[], false);
            return;
        };
        match item {
            Item::Const(item) => add(&path, format!("const: {}", text(&item.ty)), &item.attrs, false),
            Item::Static(item) => add(&path, format!("static: {}", text(&item.ty)), &item.attrs, false),
            Item::Type(item) => add(&path, format!("type = {}", text(&item.ty)), &item.attrs, false),
            Item::Fn(item) => add(&path, text(&item.sig), &item.attrs, true),
            Item::Struct(item) => {
                add(&path, format!("struct{}{}", text(&item.generics), derives(&item.attrs)), &item.attrs, false);
                for field in item.fields.iter().filter(|field| is_public(&field.vis)) {
                    let name = field.ident.as_ref().map_or("0".to_owned(), ToString::to_string);
                    add(&format!("{path}.{name}"), text(&field.ty), &field.attrs, false);
                }
            }
            Item::Enum(item) => {
                add(&path, format!("enum{}{}", text(&item.generics), derives(&item.attrs)), &item.attrs, false);
                for case in &item.variants {
                    add(
                        &format!("{path}::{}", case.ident),
                        format!("case {}", bare(&text(&case.fields))).trim_end().to_owned(),
                        &case.attrs,
                        false,
                    );
                }
            }
            Item::Trait(item) => {
                add(&path, format!("trait{}", text(&item.generics)), &item.attrs, false);
                for part in &item.items {
                    match part {
                        TraitItem::Fn(function) => {
                            let given = if function.default.is_some() { " (provided)" } else { "" };
                            add(&format!("{path}::{}", function.sig.ident), text(&function.sig) + given, &function.attrs, true);
                        }
                        TraitItem::Const(constant) => {
                            add(&format!("{path}::{}", constant.ident), format!("const: {}", text(&constant.ty)), &constant.attrs, false);
                        }
                        TraitItem::Type(kind) => add(&format!("{path}::{}", kind.ident), "type".to_owned(), &kind.attrs, false),
                        _ => {}
                    }
                }
            }
            Item::Macro(call) => add(&path, in_macro(call, &shown.name), &call.attrs, false),
            _ => {}
        }
        for block in blocks.get(&(shown.home.clone(), shown.name.clone())).into_iter().flatten() {
            if let Some((implemented, _)) = &block.trait_ {
                add(&path, format!("impl {}", text(implemented)), &[], false);
                continue;
            }
            for part in &block.items {
                match part {
                    ImplItem::Fn(function) if is_public(&function.vis) => {
                        add(&format!("{path}::{}", function.sig.ident), text(&function.sig), &function.attrs, true);
                    }
                    ImplItem::Const(constant) if is_public(&constant.vis) => {
                        add(&format!("{path}::{}", constant.ident), format!("const: {}", text(&constant.ty)), &constant.attrs, false);
                    }
                    _ => {}
                }
            }
        }
    }

    /// The `impl` blocks of each type, by where it is declared.
    fn blocks(&self) -> Blocks<'_> {
        let mut blocks = Blocks::new();
        for (home, module) in &self.modules {
            for item in &module.items {
                let Item::Impl(block) = item else { continue };
                let syn::Type::Path(of) = &*block.self_ty else { continue };
                if let Some(last) = of.path.segments.last().filter(|_| !is_test(&block.attrs)) {
                    blocks.entry(self.origin(home, &last.ident.to_string())).or_default().push(block);
                }
            }
        }
        blocks
    }
}

fn joined(path: &[String], name: &str) -> Names {
    path.iter().cloned().chain([name.to_owned()]).collect()
}

/// The names that an item declares: one, or those in a call of a macro of the crate.
fn declared(item: &Item) -> Vec<String> {
    match item {
        Item::Const(item) => vec![item.ident.to_string()],
        Item::Static(item) => vec![item.ident.to_string()],
        Item::Type(item) => vec![item.ident.to_string()],
        Item::Fn(item) => vec![item.sig.ident.to_string()],
        Item::Struct(item) => vec![item.ident.to_string()],
        Item::Enum(item) => vec![item.ident.to_string()],
        Item::Trait(item) => vec![item.ident.to_string()],
        Item::Macro(item) => match &item.ident {
            Some(name) => vec![name.to_string()],
            None => macro_names(item),
        },
        _ => Vec::new(),
    }
}

/// The call of a macro without comments: its lines, each from the name it declares on.
fn macro_lines(call: &syn::ItemMacro) -> Vec<(String, String)> {
    let body = call.mac.tokens.span().source_text().unwrap_or_default();
    let body: String = body.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
    match macro_name(call).as_str() {
        // `Name: "a what" { Case "word", ... }`
        "choices" => body
            .split_inclusive('}')
            .filter_map(|one| one.split_once(':'))
            .map(|(name, rest)| (name.trim().to_owned(), format!("choices {}", one_line(rest))))
            .collect(),
        // `NameSet(u32) of Name;`
        "choice_sets" => body
            .split(';')
            .filter_map(|one| one.split_once('('))
            .map(|(name, rest)| (name.trim().to_owned(), format!("choice set ({}", one_line(rest))))
            .collect(),
        "units" => vec![("Unit".to_owned(), format!("enum {}", one_line(&body)))],
        "constituents" => vec![("Constituent".to_owned(), format!("enum {}", one_line(&body)))],
        "quantities" => vec![("Quantity".to_owned(), format!("enum {}", one_line(&body)))],
        "checked" => body
            .split(';')
            .filter_map(|one| one.split_once(':'))
            .map(|(name, rest)| (name.trim().to_owned(), format!("checked {}", one_line(rest))))
            .collect(),
        "sources" => body
            .lines()
            .filter_map(|line| line.trim().split_once(' '))
            .map(|(name, rest)| (name.to_owned(), format!("source {}", rest.split('{').next().unwrap_or_default().trim())))
            .chain([("ALL".to_owned(), "static: &[&Source]".to_owned())])
            .collect(),
        "rule" => {
            let name = body.split('{').next().unwrap_or_default().trim().to_owned();
            let quoted = |after: &str| -> Vec<String> {
                body.match_indices(after).filter_map(|(at, _)| body[at..].split('"').nth(1)).map(str::to_owned).collect()
            };
            let limits: Vec<_> = [quoted("Limit::at_least("), quoted("Limit::at_most(")].concat();
            vec![(name, format!("rule {}, limits {}", quoted("id:").join(""), limits.join(", ")))]
        }
        _ => Vec::new(),
    }
}

fn macro_name(call: &syn::ItemMacro) -> String {
    call.mac.path.segments.last().map_or(String::new(), |last| last.ident.to_string())
}

fn macro_names(call: &syn::ItemMacro) -> Vec<String> {
    macro_lines(call).into_iter().map(|(name, _)| name).collect()
}

fn in_macro(call: &syn::ItemMacro, name: &str) -> String {
    if call.ident.is_some() {
        return "macro".to_owned();
    }
    macro_lines(call).into_iter().find(|(own, _)| own == name).map_or(String::new(), |(_, words)| words)
}

/// Every path of a `use`, with the name it gets.
fn leaves(tree: &UseTree, path: Names) -> Vec<(Names, String)> {
    match tree {
        UseTree::Path(step) => leaves(&step.tree, joined(&path, &step.ident.to_string())),
        UseTree::Name(name) if name.ident == "self" => vec![(path.clone(), path.last().cloned().unwrap_or_default())],
        UseTree::Name(name) => vec![(joined(&path, &name.ident.to_string()), name.ident.to_string())],
        UseTree::Rename(name) => vec![(joined(&path, &name.ident.to_string()), name.rename.to_string())],
        UseTree::Glob(_) => vec![(joined(&path, "*"), "*".to_owned())],
        UseTree::Group(group) => group.items.iter().flat_map(|inner| leaves(inner, path.clone())).collect(),
    }
}

fn is_public(visibility: &Visibility) -> bool {
    matches!(visibility, Visibility::Public(_))
}

fn visibility(item: &Item) -> Option<&Visibility> {
    match item {
        Item::Const(item) => Some(&item.vis),
        Item::Static(item) => Some(&item.vis),
        Item::Type(item) => Some(&item.vis),
        Item::Fn(item) => Some(&item.vis),
        Item::Struct(item) => Some(&item.vis),
        Item::Enum(item) => Some(&item.vis),
        Item::Trait(item) => Some(&item.vis),
        _ => None,
    }
}

fn attributes(item: &Item) -> &[Attribute] {
    match item {
        Item::Const(item) => &item.attrs,
        Item::Static(item) => &item.attrs,
        Item::Type(item) => &item.attrs,
        Item::Fn(item) => &item.attrs,
        Item::Struct(item) => &item.attrs,
        Item::Enum(item) => &item.attrs,
        Item::Trait(item) => &item.attrs,
        Item::Use(item) => &item.attrs,
        Item::Macro(item) => &item.attrs,
        _ => &[],
    }
}

fn has(attributes: &[Attribute], name: &str) -> bool {
    attributes.iter().any(|attribute| attribute.path().is_ident(name))
}

/// What stands in the `cfg` of an item.
fn configured(attributes: &[Attribute]) -> impl Iterator<Item = String> {
    attributes.iter().filter(|attribute| attribute.path().is_ident("cfg")).map(text)
}

fn is_test(attributes: &[Attribute]) -> bool {
    configured(attributes).any(|words| words.contains("(test") || words.contains(" test") || words.contains("doctest"))
}

fn feature_of(attributes: &[Attribute]) -> Option<String> {
    configured(attributes).find_map(|words| words.contains("feature").then(|| words.split('"').nth(1).map(str::to_owned))?)
}

fn derives(attributes: &[Attribute]) -> String {
    let lists: Vec<_> = attributes.iter().filter(|attribute| attribute.path().is_ident("derive")).map(text).collect();
    let open = if has(attributes, "non_exhaustive") { " #[non_exhaustive]" } else { "" };
    format!("{open}{}{}", if lists.is_empty() { "" } else { " " }, lists.join(" "))
}

/// The text of a documentation, line by line.
fn docs(attributes: &[Attribute]) -> String {
    let mut lines = String::new();
    for attribute in attributes.iter().filter(|attribute| attribute.path().is_ident("doc")) {
        if let syn::Meta::NameValue(pair) = &attribute.meta
            && let syn::Expr::Lit(syn::ExprLit { lit: syn::Lit::Str(line), .. }) = &pair.value
        {
            lines += line.value().strip_prefix(' ').unwrap_or(&line.value());
            lines.push('\n');
        }
    }
    lines
}

/// As it is written, on one line.
fn text(part: &(impl Spanned + ?Sized)) -> String {
    one_line(&part.span().source_text().unwrap_or_default())
}

fn one_line(text: &str) -> String {
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    line.replace("( ", "(").replace(", )", ")").replace(" )", ")")
}

/// Fields without comments.
fn bare(fields: &str) -> String {
    fields.split("///").map(|part| part.trim()).collect::<Vec<_>>().join(" ")
}
