package job

import (
	"chablon/labels/unit"
)

// CartonRequest asks for the carton labels of one product.
type CartonRequest struct {
	ID        string
	Count     unit.Count // 0 means 1
	Made      unit.Date  // zero means today
	Batch     string     // "" for the shop's rule
	SSCCFrom  string     // serial reference of the first carton; "" for none
	Stock     string     // "" for the carton's
	Languages []string
}

// Cartons makes the carton labels of a product.
func (p *Press) Cartons(r CartonRequest) ([]Paper, error) { return nil, nil }
