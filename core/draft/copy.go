package draft

func (d *drafter) copy(e *Edit) { d.fail("draft.op-missing") }
