"""What the keeper owes whom today: errands and drafts of mails, from records alone. Never
on the site."""
