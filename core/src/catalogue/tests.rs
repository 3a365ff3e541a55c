//! Tests of the built-in catalogue.

use super::Catalogue;

#[test]
fn the_built_in_catalogue_passes_its_check() {
    Catalogue::built_in().unwrap();
}
