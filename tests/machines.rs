//! What machines read: JSON against our own schemas, SARIF against the OASIS schema.
//! The SARIF 2.1.0 schema is the one that the serde-sarif crate ships; its types read the log too.

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;

fn rungbook(arguments: &[&str]) -> (String, Option<i32>) {
    let output = Command::new(env!("CARGO_BIN_EXE_rungbook"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the command runs");
    (String::from_utf8(output.stdout).expect("UTF-8 output"), output.status.code())
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).expect("JSON")
}

fn schema(path: impl AsRef<Path>) -> jsonschema::Validator {
    let text = std::fs::read_to_string(path.as_ref()).expect("the schema is there");
    built(&json(&text))
}

fn built(schema: &Value) -> jsonschema::Validator {
    jsonschema::options().should_validate_formats(true).build(schema).expect("a schema")
}

fn ours(name: &str) -> jsonschema::Validator {
    schema(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/schemas").join(name))
}

fn assert_valid(validator: &jsonschema::Validator, value: &Value) {
    let errors: Vec<String> = validator
        .iter_errors(value)
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect();
    assert!(errors.is_empty(), "{}", errors.join("\n"));
}

/// The schema inside the serde-sarif crate, wherever cargo keeps it.
fn sarif_schema() -> PathBuf {
    // Only this machine's packages are here; those of other systems would have to be fetched.
    let version =
        Command::new(std::env::var("RUSTC").unwrap_or("rustc".into())).arg("-vV").output();
    let version = String::from_utf8(version.expect("rustc runs").stdout).expect("UTF-8 output");
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).expect("a host");
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline"])
        .args(["--filter-platform", host])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo metadata runs");
    let metadata = json(&String::from_utf8_lossy(&output.stdout));
    let packages = metadata["packages"].as_array().expect("packages");
    let package = packages.iter().find(|p| p["name"] == "serde-sarif").expect("serde-sarif");
    let manifest = package["manifest_path"].as_str().expect("a path");
    Path::new(manifest).with_file_name("src").join("schema.json")
}

#[test]
fn findings_as_json_follow_their_schema() {
    let (text, code) =
        rungbook(&["check", "--library", "tests/libraries/broken", "--format", "json"]);
    let report = json(&text);
    assert_eq!(code, Some(1));
    assert!(report["findings"].as_array().is_some_and(|list| list.len() >= 15));
    assert_valid(&ours("findings.schema.json"), &report);
}

#[test]
fn the_schema_refuses_what_is_not_a_finding() {
    let wrong = json(r#"{"findings": [{"code": "Bad Code", "severity": "fatal"}]}"#);
    assert!(!ours("findings.schema.json").is_valid(&wrong));
}

#[test]
fn sarif_follows_the_oasis_schema() {
    let arguments = ["check", "--library", "tests/libraries/broken", "--format", "sarif"];
    let (text, code) = rungbook(&arguments);
    assert_eq!(code, Some(1));
    let log = json(&text);
    let text = std::fs::read_to_string(sarif_schema()).expect("the schema is there");
    // The published pattern of a language has a stray `]`, which is no regular expression in
    // Unicode mode; this is the same pattern without it. Our logs name no language.
    let stray = "^[a-zA-Z]{2}|^[a-zA-Z]{2}-[a-zA-Z]{2}]?$";
    assert_eq!(text.matches(stray).count(), 2);
    let oasis = json(&text.replace(stray, "^[a-zA-Z]{2}|^[a-zA-Z]{2}-[a-zA-Z]{2}$"));
    let validator = built(&oasis);
    assert_valid(&validator, &log);
    let mut spoilt = log.clone();
    spoilt["runs"][0]["results"][0]["level"] = "shout".into();
    assert!(!validator.is_valid(&spoilt), "the schema must be able to refuse");
    let typed: serde_sarif::sarif::Sarif = serde_json::from_value(log).expect("typed SARIF");
    let run = &typed.runs[0];
    let results = run.results.as_ref().expect("results");
    let rules = run.tool.driver.rules.as_ref().expect("rules");
    let known = |id: &str| rules.iter().any(|rule| rule.id == id);
    assert!(results.iter().all(|r| r.rule_id.as_deref().is_some_and(known)));
}

#[test]
fn answers_as_json_follow_their_schemas() {
    let hall = ["--library", "tests/libraries/hall", "--format", "json"];
    let ask = |words: &[&str]| json(&rungbook(&[words, &hall].concat()).0);
    let swaps = ours("swap.schema.json");
    let found = ask(&["swap", "strap-row"]);
    assert!(found["swaps"].as_array().is_some_and(|list| list.len() >= 3));
    assert_valid(&swaps, &found);
    let none = ask(&["swap", "push-up", "--kit", "none", "--avoid", "sore-wrist"]);
    assert!(none["ask_your_coach"].is_string());
    assert_valid(&swaps, &none);
    assert!(!swaps.is_valid(&json(r#"{"from": "push-up", "swaps": [{"to": "Floor press"}]}"#)));
    let finds = ours("find.schema.json");
    let found = ask(&["find", "hips", "sag"]);
    assert!(found["hits"].as_array().is_some_and(|list| list.len() >= 2));
    assert_valid(&finds, &found);
    assert!(!finds.is_valid(&json(r#"{"words": "x", "hits": [{"page": "a b"}]}"#)));
}
