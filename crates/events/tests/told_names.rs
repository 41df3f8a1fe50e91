//! A request stands in one object with its own id: no field of it may have a name that the object has.

use events::{Request, Told};

#[test]
fn no_request_has_a_field_of_the_object_around_it() {
    let schema = serde_json::to_value(schemars::schema_for!(Request)).unwrap_or_default();
    let all = schema["oneOf"].as_array().cloned().unwrap_or_default();
    assert!(all.len() > 30);
    for one in &all {
        let fields = one["properties"].as_object().cloned().unwrap_or_default();
        for outside in ["id", "by"] {
            assert!(!fields.contains_key(outside), "`{outside}` stands twice in {fields:?}");
        }
    }
    let text = r#"{"id":"a8","tell":"candidate","service":34,"identifier":19719,"header":"7E1"}"#;
    assert!(serde_json::from_str::<Told>(text).is_ok());
}
