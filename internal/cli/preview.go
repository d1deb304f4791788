package cli

import "errors"

type previewCommand struct {
	courseFlag
}

func (cmd previewCommand) Run() error { return errors.New("preview") }
