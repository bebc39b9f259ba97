package shop

import "chablon/labels/diag"

func (s *Shop) check(found *diag.List) {}
