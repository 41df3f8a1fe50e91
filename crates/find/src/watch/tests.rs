use super::*;

#[test]
fn nothing_is_said_before_anything_was_seen() {
    let watch = Watch::new(&[], &Soak::default());
    assert_eq!(watch.outcome(), Outcome::NotYet);
    assert!(watch.standing().is_empty());
    assert_eq!(watch.settles(), Settles::ColdSoak);
}
