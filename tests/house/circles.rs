//! Circles: modules beside each other of which each imports the other, at last through others.
//! Never resolves names as the compiler does: a path counts as far as it names our own modules.

use super::source::{code, without_tests, words};
use petgraph::algo::tarjan_scc;
use petgraph::graphmap::DiGraphMap;
use std::collections::{BTreeMap, BTreeSet};

/// Every circle among modules of one parent, each as its modules in order.
pub fn circles(sources: &BTreeMap<String, String>) -> Vec<Vec<String>> {
    let modules: BTreeMap<Vec<String>, &String> =
        sources.iter().map(|(name, text)| (module(name), text)).collect();
    let mut arrows = BTreeSet::new();
    for (from, text) in &modules {
        for to in paths(&words(&without_tests(&code(text))), from) {
            let known = (1..=to.len()).rev().map(|len| &to[..len]);
            let Some(to) = known.into_iter().find(|path| modules.contains_key(*path)) else {
                continue;
            };
            let shared = from.iter().zip(to).take_while(|(a, b)| a == b).count();
            if shared < from.len().min(to.len()) {
                arrows.insert((from[..=shared].join("::"), to[..=shared].join("::")));
            }
        }
    }
    let graph: DiGraphMap<&str, ()> =
        arrows.iter().map(|(from, to)| (from.as_str(), to.as_str())).collect();
    let circles = tarjan_scc(&graph).into_iter().filter(|circle| circle.len() > 1);
    let named = |circle: Vec<&str>| {
        let mut names: Vec<String> = circle.into_iter().map(String::from).collect();
        names.sort();
        names
    };
    let mut circles: Vec<Vec<String>> = circles.map(named).collect();
    circles.sort();
    circles
}

/// `src/swap/score.rs` is swap, score; `src/swap/mod.rs` is swap.
fn module(name: &str) -> Vec<String> {
    let inside = name.trim_start_matches("src/").trim_end_matches(".rs").trim_end_matches("/mod");
    inside.split('/').map(String::from).collect()
}

/// What follows `crate`, `self` and `super` in the code of module `here`, from the top.
fn paths(words: &[String], here: &[String]) -> Vec<Vec<String>> {
    let mut found = Vec::new();
    for at in 0..words.len() {
        let follows = words.get(at + 1).is_some_and(|word| word == "::");
        let begins = at == 0 || words[at - 1] != "::";
        let up = usize::from(words[at] == "super");
        if !follows || !begins || !["crate", "self", "super"].contains(&words[at].as_str()) {
            continue;
        }
        let base = match words[at].as_str() {
            "crate" => &[],
            _ => &here[..here.len() - up.min(here.len())],
        };
        tree(&words[at + 2..], base.to_vec(), &mut found);
    }
    found
}

/// Reads `a::{b, c::d}` on from `base`; the number of words read.
fn tree(words: &[String], mut base: Vec<String>, found: &mut Vec<Vec<String>>) -> usize {
    let mut at = 0;
    while let Some(word) = words.get(at) {
        match word.as_str() {
            "super" => {
                base.pop();
            }
            "{" => {
                at += 1;
                while let Some(word) = words.get(at).filter(|word| *word != "}") {
                    at += if word == "," {
                        1
                    } else {
                        tree(&words[at..], base.clone(), found).max(1)
                    };
                }
                return at + 1;
            }
            name => base.push(name.to_string()),
        }
        at += 1;
        if words.get(at).is_none_or(|word| word != "::") {
            break;
        }
        at += 1;
    }
    found.push(base);
    // `as other` is another name for the same.
    if words.get(at).is_some_and(|word| word == "as") { at + 2 } else { at }
}
