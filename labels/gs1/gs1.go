// Package gs1 answers: which digits does GS1 want?
//
// It knows check digits and keys (GTIN, GLN, SSCC), element strings with
// their Application Identifiers (AIs), Digital Link URIs, and the sizes that
// bar codes may have. It knows no bars: drawing them is the work of
// layout/symbol.
//
// Sources: the GS1 General Specifications (GGS; section numbers are from
// memory, figure numbers from public test tables that cite them) and the GS1 Barcode Syntax
// Dictionary, release 2026-01-27, of which a copy is embedded
// (syntax-dictionary.txt, © GS1 AISBL and others, Apache License 2.0, text in
// syntax-dictionary.LICENSE.txt).
package gs1

// FNC1 stands between elements in an element string. In a symbol it is the
// function character FNC1; a scanner sends it as the control character GS.
const FNC1 = "\x1d"

// Element is one piece of data: an Application Identifier and its value, such
// as {"10", "L26076A"} for a batch.
type Element struct{ AI, Value string }
