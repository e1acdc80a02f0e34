//! Puts mutants into a text, each behind a switch: `(if on(17) { a + b } else { a - b })`. Every mutant of a draw is then
//! in one build, and one run of the tests turns one of them on.
//!
//! A mutant's text is what `cargo mutants` would have written, taken for the whole chain of operators that it stands in,
//! so that `a - b * c` becomes `a - b + c` and not `a - (b + c)`.

use std::collections::BTreeMap;
use std::ops::Range;

use syn::spanned::Spanned;
use syn::visit::{self, Visit};

use crate::list::{LineColumn, Mutant};

/// The switch, as the copied engine calls it.
const ON: &str = "crate::mutant_switch::on";

/// A text with its switches.
pub struct Switched {
    pub text: String,
    /// Where each mutant's own words stand in the new text: to lay a compiler's complaint at its door.
    pub places: Vec<(usize, Range<usize>)>,
    /// Mutants for which no place was found.
    pub lost: Vec<usize>,
}

/// The text with the mutants (by number) behind switches.
///
/// # Errors
/// Where the text is no Rust.
pub fn switch(text: &str, mutants: &[(usize, &Mutant)]) -> Result<Switched, String> {
    let file = syn::parse_file(text).map_err(|error| error.to_string())?;
    let lines = Lines::of(text);
    let mut wanted = Wanted::default();
    let mut lost = Vec::new();
    for (id, mutant) in mutants {
        let at = (*id, *mutant, lines.range(mutant));
        match mutant.genre.as_str() {
            "FnValue" => wanted.bodies.push(at),
            "BinaryOperator" | "UnaryOperator" => wanted.operators.entry(at.2.start).or_default().push(at),
            "MatchArm" => wanted.arms.entry(at.2.start).or_default().push(at),
            "MatchArmGuard" => wanted.guards.entry(at.2.start).or_default().push(at),
            "StructField" => wanted.fields.entry(at.2.start).or_default().push(at),
            _ => lost.push(*id),
        }
    }
    let mut finder = Finder { text, wanted, nodes: BTreeMap::new(), inserts: Vec::new(), chain: None };
    finder.visit_file(&file);
    finder.early_returns();
    let placed = finder.placed();
    lost.extend(mutants.iter().map(|(id, _)| *id).filter(|id| !placed.contains(id)));
    lost.sort_unstable();
    lost.dedup();
    let mut writer = Writer {
        text,
        nodes: &finder.nodes,
        inserts: &finder.inserts,
        out: String::new(),
        places: Vec::new(),
    };
    writer.range(0..text.len(), None);
    Ok(Switched { text: writer.out, places: writer.places, lost })
}

/// The text with one mutant in it for good, for the few that no switch can hold.
pub fn replaced(text: &str, mutant: &Mutant) -> String {
    let range = Lines::of(text).range(mutant);
    // A deleted operator must not glue two words together, nor a deleted field leave its comma.
    let mut rest = &text[range.end..];
    if mutant.genre == "StructField" {
        rest = rest.trim_start().strip_prefix(',').unwrap_or(rest);
    }
    format!("{}{} {rest}", &text[..range.start], mutant.replacement)
}

type At<'a> = (usize, &'a Mutant, Range<usize>);

#[derive(Default)]
struct Wanted<'a> {
    bodies: Vec<At<'a>>,
    operators: BTreeMap<usize, Vec<At<'a>>>,
    arms: BTreeMap<usize, Vec<At<'a>>>,
    guards: BTreeMap<usize, Vec<At<'a>>>,
    fields: BTreeMap<usize, Vec<At<'a>>>,
}

/// An expression with what each of its mutants makes of it.
type Nodes = BTreeMap<(usize, std::cmp::Reverse<usize>), Vec<(usize, String)>>;

struct Finder<'a> {
    text: &'a str,
    wanted: Wanted<'a>,
    nodes: Nodes,
    /// Words put in at a place, with the mutant whose they are.
    inserts: Vec<(usize, usize, String)>,
    /// The whole of the operators' chain in which we are.
    chain: Option<Range<usize>>,
}

impl Finder<'_> {
    fn node(&mut self, whole: &Range<usize>, id: usize, text: String) {
        self.nodes.entry((whole.start, std::cmp::Reverse(whole.end))).or_default().push((id, text));
    }

    /// The whole's words with the range in it replaced.
    fn with(&self, whole: &Range<usize>, range: &Range<usize>, replacement: &str) -> String {
        format!("{}{replacement} {}", &self.text[whole.start..range.start], &self.text[range.end..whole.end])
    }

    fn operator(&mut self, at: usize, whole: &Range<usize>) {
        for (id, mutant, range) in self.wanted.operators.remove(&at).unwrap_or_default() {
            let text = self.with(whole, &range, &mutant.replacement);
            self.node(whole, id, text);
        }
    }

    fn early_returns(&mut self) {
        for (id, mutant, range) in std::mem::take(&mut self.wanted.bodies) {
            let text = format!("if {ON}({id}) {{ return {}; }} ", mutant.replacement);
            self.inserts.push((range.start, id, text));
        }
    }

    fn placed(&self) -> Vec<usize> {
        let nodes = self.nodes.values().flatten().map(|(id, _)| *id);
        nodes.chain(self.inserts.iter().map(|(_, id, _)| *id)).collect()
    }
}

impl<'ast> Visit<'ast> for Finder<'_> {
    fn visit_expr(&mut self, expr: &'ast syn::Expr) {
        let outer = self.chain.take();
        let whole = outer.clone().unwrap_or_else(|| expr.span().byte_range());
        match expr {
            syn::Expr::Binary(binary) => {
                let at = binary.op.span().byte_range().start;
                if assigns(&binary.op) {
                    self.operator(at, &expr.span().byte_range());
                } else if !holds_let(expr) {
                    self.operator(at, &whole);
                    self.chain = Some(whole.clone());
                }
                self.visit_expr(&binary.left);
                self.chain = (!assigns(&binary.op) && !holds_let(expr)).then_some(whole);
                self.visit_expr(&binary.right);
            }
            syn::Expr::Unary(unary) => {
                self.operator(unary.op.span().byte_range().start, &whole);
                self.chain = Some(whole);
                self.visit_expr(&unary.expr);
            }
            syn::Expr::Cast(cast) => {
                self.chain = Some(whole);
                self.visit_expr(&cast.expr);
            }
            _ => visit::visit_expr(self, expr),
        }
        self.chain = outer;
    }

    fn visit_arm(&mut self, arm: &'ast syn::Arm) {
        let start = arm.span().byte_range().start;
        for (id, _, _) in self.wanted.arms.remove(&start).unwrap_or_default() {
            match &arm.guard {
                Some((_, guard)) => {
                    let range = guard.span().byte_range();
                    self.inserts.push((range.start, id, format!("!{ON}({id}) && (")));
                    self.inserts.push((range.end, id, ")".into()));
                }
                None => {
                    self.inserts.push((arm.pat.span().byte_range().end, id, format!(" if !{ON}({id})")));
                }
            }
        }
        if let Some((_, guard)) = &arm.guard {
            let range = guard.span().byte_range();
            for (id, mutant, _) in self.wanted.guards.remove(&range.start).unwrap_or_default() {
                self.node(&range, id, mutant.replacement.clone());
            }
        }
        visit::visit_arm(self, arm);
    }

    fn visit_expr_struct(&mut self, expr: &'ast syn::ExprStruct) {
        let whole = expr.span().byte_range();
        for pair in expr.fields.pairs() {
            let field = pair.value().span().byte_range();
            for (id, _, _) in self.wanted.fields.remove(&field.start).unwrap_or_default() {
                let end = pair.punct().map_or(field.end, |comma| comma.span().byte_range().end);
                let text = self.with(&whole, &(field.start..end), "");
                self.node(&whole, id, text);
            }
        }
        visit::visit_expr_struct(self, expr);
    }
}

fn assigns(op: &syn::BinOp) -> bool {
    use syn::BinOp as B;
    matches!(
        op,
        B::AddAssign(_)
            | B::SubAssign(_)
            | B::MulAssign(_)
            | B::DivAssign(_)
            | B::RemAssign(_)
            | B::BitXorAssign(_)
            | B::BitAndAssign(_)
            | B::BitOrAssign(_)
            | B::ShlAssign(_)
            | B::ShrAssign(_)
    )
}

/// Whether the conditions of `if let … && …` stand in it: they bind names and can't be put into parentheses.
fn holds_let(expr: &syn::Expr) -> bool {
    match expr {
        syn::Expr::Let(_) => true,
        syn::Expr::Binary(binary) => holds_let(&binary.left) || holds_let(&binary.right),
        _ => false,
    }
}

struct Writer<'a> {
    text: &'a str,
    nodes: &'a Nodes,
    inserts: &'a [(usize, usize, String)],
    out: String,
    places: Vec<(usize, Range<usize>)>,
}

impl Writer<'_> {
    /// Writes a stretch of the old text; `inside` is the node whose own words these are.
    fn range(&mut self, range: Range<usize>, inside: Option<(usize, usize)>) {
        let mut at = range.start;
        while at < range.end {
            let node = self.next_node(at..range.end, inside);
            let insert =
                self.next_insert(at..node.map_or(range.end, |n| n.0 + 1), range.start, inside.is_some());
            if let Some((place, words)) = insert {
                self.out.push_str(&self.text[at..place]);
                for (id, text) in words {
                    let start = self.out.len();
                    self.out.push_str(&text);
                    self.places.push((id, start..self.out.len()));
                }
                at = place;
                if let Some((start, end)) = node.filter(|node| node.0 == place) {
                    self.node(start, end);
                    at = end;
                } else if at < range.end {
                    let step = self.text[at..].chars().next().map_or(1, char::len_utf8);
                    self.out.push_str(&self.text[at..at + step]);
                    at += step;
                }
            } else if let Some((start, end)) = node {
                self.out.push_str(&self.text[at..start]);
                self.node(start, end);
                at = end;
            } else {
                self.out.push_str(&self.text[at..range.end]);
                at = range.end;
            }
        }
    }

    fn next_node(&self, range: Range<usize>, inside: Option<(usize, usize)>) -> Option<(usize, usize)> {
        self.nodes
            .range((range.start, std::cmp::Reverse(usize::MAX))..)
            .map(|((start, end), _)| (*start, end.0))
            .take_while(|(start, _)| *start < range.end)
            .find(|node| {
                Some(*node) != inside
                    && node.1 <= range.end
                    && inside.is_none_or(|i| node.1 - node.0 < i.1 - i.0)
            })
    }

    /// The first place in the range at which words are put in. At a node's own start they stand before it.
    fn next_insert(
        &self,
        range: Range<usize>,
        begin: usize,
        in_node: bool,
    ) -> Option<(usize, Vec<(usize, String)>)> {
        let fits = |place: &usize| range.contains(place) && !(in_node && *place == begin);
        let place = self.inserts.iter().map(|insert| insert.0).filter(|place| fits(place)).min()?;
        let words = self.inserts.iter().filter(|insert| insert.0 == place);
        Some((place, words.map(|(_, id, text)| (*id, text.clone())).collect()))
    }

    fn node(&mut self, start: usize, end: usize) {
        let arms = &self.nodes[&(start, std::cmp::Reverse(end))];
        self.out.push('(');
        for (id, text) in arms {
            let from = self.out.len();
            self.out.push_str(&format!("if {ON}({id}) {{ {text} }} else "));
            self.places.push((*id, from..self.out.len()));
        }
        self.out.push_str("{ ");
        self.range(start..end, Some((start, end)));
        self.out.push_str(" })");
    }
}

/// Where lines begin.
struct Lines<'a> {
    text: &'a str,
    starts: Vec<usize>,
}

impl<'a> Lines<'a> {
    fn of(text: &'a str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { text, starts }
    }

    fn range(&self, mutant: &Mutant) -> Range<usize> {
        self.byte(mutant.span.start)..self.byte(mutant.span.end)
    }

    fn byte(&self, at: LineColumn) -> usize {
        let start = self.starts.get(at.line - 1).copied().unwrap_or(self.text.len());
        let line = &self.text[start..];
        start + line.char_indices().nth(at.column - 1).map_or(line.len(), |(byte, _)| byte)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::Span;

    fn mutant(genre: &str, text: &str, what: &str, replacement: &str) -> Mutant {
        let byte = text.find(what).expect("the words are in the text");
        let place = |byte: usize| {
            let before = &text[..byte];
            let line = before.matches('\n').count() + 1;
            let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
            LineColumn { line, column }
        };
        Mutant {
            name: String::new(),
            file: String::new(),
            genre: genre.into(),
            replacement: replacement.into(),
            span: Span { start: place(byte), end: place(byte + what.trim_end().len()) },
            function: None,
        }
    }

    fn switched(text: &str, mutants: &[Mutant]) -> String {
        let numbered: Vec<(usize, &Mutant)> = mutants.iter().enumerate().collect();
        let switched = switch(text, &numbered).expect("Rust");
        assert_eq!(switched.lost, Vec::<usize>::new(), "{}", switched.text);
        syn::parse_file(&switched.text).expect("still Rust");
        switched.text
    }

    #[test]
    fn an_operator_is_replaced_in_the_text_of_its_whole_chain() {
        let text = "fn f() -> f64 { a - b * c }";
        let out = switched(text, &[mutant("BinaryOperator", text, "* ", "+")]);
        assert!(out.contains("(if crate::mutant_switch::on(0) { a - b +  c } else { a - b * c })"), "{out}");
    }

    #[test]
    fn two_of_one_chain_and_one_inside_parentheses() {
        let text = "fn f() -> f64 { α + g(b % 2.0) / c }";
        let mutants = [
            mutant("BinaryOperator", text, "+ ", "-"),
            mutant("BinaryOperator", text, "% ", "*"),
            mutant("BinaryOperator", text, "/ ", "*"),
        ];
        let out = switched(text, &mutants);
        assert!(out.contains("on(0) { α -  g(b % 2.0) / c } else if"), "{out}");
        assert!(
            out.contains(
                "else { α + g((if crate::mutant_switch::on(1) { b *  2.0 } else { b % 2.0 })) / c }"
            ),
            "{out}"
        );
    }

    #[test]
    fn a_body_returns_early_and_its_first_operator_stays() {
        let text = "fn f() -> f64 {\n    -a\n}";
        let mutants = [mutant("FnValue", text, "-a", "0.0"), mutant("UnaryOperator", text, "-a", "")];
        let mut second = mutants[1].clone();
        second.span.end.column = second.span.start.column + 1;
        let out = switched(text, &[mutants[0].clone(), second]);
        assert!(out.contains("if crate::mutant_switch::on(0) { return 0.0; } (if crate::mutant_switch::on(1) {  a } else { -a })"), "{out}");
    }

    #[test]
    fn arms_guards_fields_and_conditions_that_bind() {
        let text = "fn f() { match x { 1 if p => 2, 3 => 4, _ => 5 }; if let Some(y) = z && y < 4 { S { a: 1, ..b }; } }";
        let mutants = [
            mutant("MatchArm", text, "1 if", ""),
            mutant("MatchArmGuard", text, "p =>", "true"),
            mutant("MatchArm", text, "3 =>", ""),
            mutant("BinaryOperator", text, "< ", "<="),
            mutant("StructField", text, "a: 1", ""),
        ];
        let out = switched(text, &mutants);
        assert!(out.contains("1 if !crate::mutant_switch::on(0) && ((if crate::mutant_switch::on(1) { true } else { p })) =>"), "{out}");
        assert!(out.contains("3 if !crate::mutant_switch::on(2) =>"), "{out}");
        assert!(out.contains("&& (if crate::mutant_switch::on(3) { y <=  4 } else { y < 4 })"), "{out}");
        assert!(out.contains("on(4) { S {   ..b } } else"), "{out}");
    }

    #[test]
    fn an_assigning_operator_is_a_chain_of_its_own() {
        let text = "fn f() { a += b * c; }";
        let out = switched(text, &[mutant("BinaryOperator", text, "+= ", "-=")]);
        assert!(
            out.contains("(if crate::mutant_switch::on(0) { a -=  b * c } else { a += b * c });"),
            "{out}"
        );
    }

    #[test]
    fn a_mutant_for_good() {
        let text = "const A: f64 = 2.0 * 3.0;";
        assert_eq!(replaced(text, &mutant("BinaryOperator", text, "* ", "+")), "const A: f64 = 2.0 +  3.0;");
    }
}
